package org.isopach.report.normal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalJudge;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.analysis.normal.NormalPlace.NotPlaced;
import org.isopach.analysis.normal.NormalPlace.Placed;
import org.isopach.analysis.normal.NormalPlace.Reason;
import org.isopach.analysis.normal.NormalRules;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceRow;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.analysis.normal.StatedRange;
import org.isopach.report.normal.ReferenceTableException.Fault;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReferenceTableFileTest {
  private static final String HEADER = String.join(",", ReferenceTableFile.COLUMNS);
  private static final Path EXAMPLE = Path.of("../../docs/reference-table-example.csv");
  private static final List<String> SOUND =
      List.of(
          "own",
          "limits",
          "circle",
          "ILM-RNFL-GCL",
          "quadrants",
          "superior",
          "3.46",
          "horizontal",
          "117.5",
          "15.5",
          "60",
          "20",
          "79",
          "-0.4",
          "50",
          "22",
          "26",
          "-3",
          "23.5",
          "2",
          "2.1",
          "spectral-domain",
          "Model A; Model B",
          "the clinic's own",
          "measured here",
          "read",
          "");

  @TempDir private Path folder;

  @Test
  void readsEveryColumn() throws IOException {
    ReferenceTable table = read(HEADER, String.join(",", SOUND));
    ReferenceRow row = table.rows().get(0);

    assertEquals("own.csv", table.name());
    assertEquals("own", row.source().referenceId());
    assertEquals(117.5, row.meanUm());
    assertEquals(15.5, row.sdUm());
    assertEquals(60, row.n());
    assertEquals(3.46, row.place().diameterMm().orElseThrow());
    assertEquals(Optional.of("horizontal"), row.place().angleZero());
    assertEquals(StatedRange.of(20, 79), row.scope().ages());
    assertEquals(StatedRange.of(22, 26), row.scope().axialLengths());
    assertEquals(List.of("Model A", "Model B"), row.scope().deviceModels());
    assertEquals(-4, row.age().orElseThrow().shiftUm(60), 1e-12);
    assertEquals(-3, row.axialLength().orElseThrow().shiftUm(24.5), 1e-12);
    assertEquals(2, row.discArea().orElseThrow().shiftUm(3.1), 1e-12);
  }

  /** The worked example of docs/measurements.md, by hand: mean 91.78 µm, z −1.548. */
  @Test
  void readsTheExampleOfTheHandbook() throws IOException {
    ReferenceTable table = ReferenceTableFile.read(EXAMPLE);
    Placed placed = (Placed) example(table, 62, 24.6, "Invented Model A");

    assertEquals(3, table.rows().size());
    assertEquals(1, table.ageing().size());
    assertEquals(91.78, placed.meanUm(), 1e-9);
    assertEquals(-1.548, placed.z(), 5e-4);
    assertEquals(6.08, placed.percentile(), 0.005);
    assertEquals(3.79, placed.interval().lower(), 0.005);
    assertEquals(9.33, placed.interval().upper(), 0.005);
    assertTrue(
        placed
            .words()
            .startsWith(
                "between the 5th and the 95th percentile of this reference group, at the 6th"
                    + " percentile (95 % interval 3.8 to 9.3); the interval reaches below the 5th"),
        placed.words());
    assertEquals(Reason.AGE_OUTSIDE, refusal(example(table, 80, 24.6, "Invented Model A")));
    assertEquals(
        Reason.AXIAL_LENGTH_OUTSIDE, refusal(example(table, 62, 26.5, "Invented Model A")));
    assertEquals(Reason.DEVICE_NOT_COVERED, refusal(example(table, 62, 24.6, "Another Model")));
  }

  private static NormalPlace example(
      ReferenceTable table, double age, double axialLengthMm, String model) {
    NormalEye eye =
        new NormalEye(
            OptionalDouble.of(age),
            OptionalDouble.of(axialLengthMm),
            OptionalDouble.empty(),
            Optional.of(model),
            Optional.empty());
    Layer layer = new Layer(Boundary.ILM, Boundary.RNFL_GCL);
    return new NormalJudge(table, NormalRules.USUAL)
        .place(
            78,
            ReferencePlace.circle(layer, "", "global", 3.46, ReferencePlace.HORIZONTAL),
            eye,
            OptionalDouble.empty());
  }

  private static Reason refusal(NormalPlace place) {
    return ((NotPlaced) place).reason();
  }

  @Test
  void takesColumnsInAnyOrderQuotesAndAByteOrderMark() throws IOException {
    List<String> header = new ArrayList<>(ReferenceTableFile.COLUMNS);
    List<String> cells = new ArrayList<>(SOUND);
    Collections.reverse(header);
    cells.set(ReferenceTableFile.COLUMNS.indexOf("population"), "\"ours, \"\"old\"\"\nand new\"");
    Collections.reverse(cells);

    ReferenceRow row =
        read("\uFEFF" + String.join(",", header), String.join(",", cells)).rows().get(0);
    assertEquals("ours, \"old\"\nand new", row.source().population());
    assertEquals(15.5, row.sdUm());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "sd_um|0|must be above 0, was 0",
        "sd_um|-1.5|must be above 0, was -1.5",
        "sd_um||must not be empty",
        "mean_um|117,5|has 28 cells, the header 27",
        "mean_um|about 100|must be a number with a full stop, was 'about 100'",
        "mean_um|NaN|must be a number with a full stop, was 'NaN'",
        "mean_um|1d|must be a number with a full stop, was '1d'",
        "n|1|must be a whole number of at least 2, was 1",
        "n|60.5|must be a whole number of at least 2, was 60.5",
        "source||must not be empty",
        "population||must not be empty",
        "reference_id||must not be empty",
        "age_to_years|19|must not be below age_from_years, was 19 and 20",
        "age_from_years|20.5|must be a whole number of at least 0, was 20.5",
        "axial_to_mm|21|must not be below axial_from_mm, was 21 and 22",
        "mean_age_years||must say where the mean holds, without which the slope cannot be used",
        "age_slope_um_per_year||must be empty without age_slope_um_per_year, was '50'",
        "boundaries|ILM-GCL|must be the inner and the outer boundary",
        "boundaries|BM-ILM|must be the inner and the outer boundary",
        "boundaries|opening-ILM|must be the inner and the outer boundary",
        "measure|rim-width|must be opening-ILM for the rim width",
        "measure|ring|must be circle, grid, elliptical-annulus or rim-width, was 'ring'",
        "angle_zero|top|must be empty, horizontal or fovea-disc-line, was 'top'",
        "sector|global|must be empty for the sector global, was 'quadrants'",
        "scheme||must not be empty",
        "diameter_mm|-3|must be above 0, was -3",
        "kind|mean|must be limits or ageing, was 'mean'",
        "kind|ageing|must be empty in a row of kind ageing, was '117.5'",
        "status|sure|must be read, from-memory or computed, was 'sure'"
      })
  void namesRowAndColumnOfAFault(String column, String cell, String expected) throws IOException {
    List<Fault> faults = faults(HEADER, String.join(",", SOUND), with(column, cell));
    Fault first =
        faults.stream()
            .filter(fault -> fault.what().startsWith(expected))
            .findFirst()
            .orElseThrow();

    assertEquals(3, first.line(), first.toString());
    String where =
        switch (column) {
          case "age_slope_um_per_year" -> "mean_age_years";
          case "measure" -> cell == null || cell.equals("ring") ? "measure" : "boundaries";
          case "sector" -> "scheme";
          default -> expected.startsWith("has") ? "" : column;
        };
    assertEquals(cell != null && cell.equals("ageing") ? "mean_um" : where, first.column());
  }

  @Test
  void namesUnknownMissingAndDoubledColumnsAndDoubledRows() throws IOException {
    String row = String.join(",", SOUND);

    assertEquals(
        List.of(
            new Fault(1, "colour", "unknown column"),
            new Fault(1, "note", "the column is missing")),
        faults(HEADER.replace(",note", ",colour"), row));
    assertTrue(faults(HEADER.replace(",note", ",n"), row).get(0).what().contains("\"n\""));
    assertEquals(
        List.of(new Fault(4, "", "says again what line 2 says")),
        faults(HEADER, row, with("sector", "nasal"), with("mean_um", "99")));
    assertEquals(List.of(new Fault(1, "", "the table has no rows")), faults(HEADER));
  }

  @Test
  void namesAllFaultsAtOnceAndRefusesOtherFiles() throws IOException {
    List<Fault> faults = faults(HEADER, with("sd_um", "0"), with("source", ""));
    Path latin = folder.resolve("latin.csv");
    Files.write(latin, (HEADER + "\nM\u00fcnster").getBytes(StandardCharsets.ISO_8859_1));

    assertTrue(faults.stream().anyMatch(fault -> fault.line() == 2), faults.toString());
    assertTrue(faults.stream().anyMatch(fault -> fault.line() == 3), faults.toString());
    IOException refused =
        assertThrows(ReferenceTableException.class, () -> ReferenceTableFile.read(latin));
    assertEquals(
        "latin.csv is not a sound reference table: line 1: is not UTF-8 text",
        refused.getMessage());
    assertTrue(faults(HEADER, "\"open").get(0).what().startsWith("not CSV"));
  }

  private String with(String column, String cell) {
    List<String> cells = new ArrayList<>(SOUND);
    cells.set(ReferenceTableFile.COLUMNS.indexOf(column), cell == null ? "" : cell);
    return String.join(",", cells);
  }

  private List<Fault> faults(String... lines) {
    return assertThrows(ReferenceTableException.class, () -> read(lines)).faults();
  }

  private ReferenceTable read(String... lines) throws IOException {
    Path file = folder.resolve("own.csv");
    Files.writeString(file, String.join("\r\n", lines) + "\r\n");
    return ReferenceTableFile.read(file);
  }
}

package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.dicom.check.CheckReport;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.IodChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.check.PixelContent;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.SampleGrid;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.MacularGridReport;
import org.isopach.dicom.read.MacularGridReportReader;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MacularGridReportWriterTest {
  private static final DerivedProvenance MADE =
      new DerivedProvenance("0.1.0", "grid etdrs-1-3-6, centre foveal-pit");

  private static final List<String> REMARKS =
      List.of("low-signal: median signal is 9.0 dB", "retina-cut-off: in 12 of 97 frames");

  @TempDir Path folder;

  private DerivedWriteResult write(SectorTable table, DerivedProvenance made, Path target)
      throws Exception {
    return new MacularGridReportWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(table, SampleMap.scan(true), REMARKS, made, target);
  }

  private Path written(boolean torn) throws Exception {
    Path file = folder.resolve("grid.dcm");
    assertInstanceOf(
        DerivedWriteResult.Written.class, write(SampleGrid.table(Layer.ILM_RPE, torn), MADE, file));
    return file;
  }

  private Dataset object() throws Exception {
    List<Dataset> kept = new ArrayList<>();
    new MacularGridReportWriter(
            scan -> SandpiperScan.header(), (path, dataset, pixels) -> kept.add(dataset))
        .write(
            SampleGrid.table(Layer.ILM_RPE, false),
            SampleMap.scan(true),
            REMARKS,
            MADE,
            Path.of("unused"));
    return kept.get(0);
  }

  @Test
  void valuesComeBackWithTheDecimalsOfTheTable() throws Exception {
    List<MacularGridReport> eyes = MacularGridReportReader.read(written(false));
    assertEquals(1, eyes.size());
    MacularGridReport eye = eyes.get(0);
    assertEquals(Laterality.RIGHT, eye.laterality());
    assertEquals(11, eye.values().size());
    assertEquals(212.5, eye.values().get("centre-point"));
    for (int i = 0; i < 9; i++) {
      String sector = EtdrsGrids.ETDRS_1_3_6.sectors().get(i).name();
      assertEquals(Math.rint(SampleGrid.um(i) * 1000) / 1000, eye.values().get(sector), 1e-9);
    }
    assertEquals(8.4823, eye.values().get("total"), 1e-9);
    assertEquals("111928", eye.definition().orElseThrow().value());
    assertEquals(Set.of(SandpiperScan.SOP_UID), eye.sources());
  }

  /** The reader takes the sectors from the codes; the codes are compared with LOINC here. */
  @Test
  void sectorsCarryTheirLoincCode() throws Exception {
    String dump = ToolRun.of("dsrdump", "+Pc", written(false).toString()).output();
    assertTrue(dump.contains("(57109-1,LN,\"Macular Grid.Center Subfield Thickness\")"), dump);
    String[] expected = {
      "57108-3 212.500", "57109-1 250.123", "57110-9 260.123", "57111-7 270.123",
      "57112-5 280.123", "57113-3 290.123", "57114-1 300.123", "57115-8 310.123",
      "57116-6 320.123", "57117-4 330.123", "57118-2 8.482300",
    };
    for (String pair : expected) {
      String[] parts = pair.split(" ", 2);
      Optional<String> line =
          dump.lines().filter(l -> l.contains("(" + parts[0] + ",")).findFirst();
      assertTrue(line.orElse("none").contains("\"" + parts[1] + "\""), pair + " in " + dump);
    }
  }

  /** A method of another kind below one number would have been taken for all of them. */
  @Test
  void aDefinitionCountsOnlyWhenItIsTheOneOfAllNumbers() throws Exception {
    Dataset report = object();
    assertEquals(Optional.of("111928"), definition(report));
    Dataset second =
        ContentItem.code(
            ContentItem.CONCEPT_MODIFIER,
            METHOD,
            new Code("111929", "DCM", "Total retinal thickness (ILM to BM)"));
    Dataset two = changed(report, items -> plus(items, second));
    assertEquals(Optional.empty(), definition(two), "two definitions");
    Dataset none = changed(report, items -> without(items));
    assertEquals(Optional.empty(), definition(none), "no definition");
    Dataset onOne = changed(none, items -> onNumbers(items, second, 1));
    assertEquals(Optional.empty(), definition(onOne), "of one number only");
    Dataset onAll = changed(none, items -> onNumbers(items, second, Integer.MAX_VALUE));
    assertEquals(Optional.of("111929"), definition(onAll), "of every number");
  }

  /** SNOMED-RT as objects before SNOMED CT have it; the codes are from memory. */
  @Test
  void codesOfOlderObjectsAreUnderstood() throws Exception {
    Dataset old =
        changed(
            object(),
            items -> {
              List<Dataset> all = new ArrayList<>(without(items));
              all.removeIf(item -> named(item, "363698007"));
              all.add(
                  ContentItem.code(
                      ContentItem.CONCEPT_MODIFIER,
                      new Code("G-C171", "SRT", "Laterality"),
                      new Code("G-A101", "SRT", "Left")));
              all.add(
                  ContentItem.code(
                      ContentItem.CONCEPT_MODIFIER,
                      new Code("G-C036", "SRT", "Measurement Method"),
                      new Code("111928", "DCM", "")));
              return all;
            });
    assertEquals(Optional.of("111928"), definition(old));
    Path file = folder.resolve("changed.dcm");
    assertEquals(Laterality.LEFT, MacularGridReportReader.read(file).get(0).laterality());
  }

  private static final Code METHOD = new Code("370129005", "SCT", "Measurement Method");

  private Optional<String> definition(Dataset report) throws Exception {
    Path file = folder.resolve("changed.dcm");
    DicomWriters.partTen().write(file, report, new byte[0]);
    return MacularGridReportReader.read(file).get(0).definition().map(Code::value);
  }

  /** Returns a report whose findings have other items. */
  private static Dataset changed(Dataset report, UnaryOperator<List<Dataset>> change) {
    List<Dataset> outer = new ArrayList<>();
    for (Dataset item : report.items(Tags.CONTENT_SEQUENCE)) {
      boolean findings = named(item, "121070");
      List<Dataset> inner = item.items(Tags.CONTENT_SEQUENCE);
      outer.add(
          findings
              ? item.toBuilder().items(Tags.CONTENT_SEQUENCE, change.apply(inner)).build()
              : item);
    }
    return report.toBuilder().items(Tags.CONTENT_SEQUENCE, outer).build();
  }

  private static boolean named(Dataset item, String code) {
    return item.items(Tags.CONCEPT_NAME_CODE_SEQUENCE).stream()
        .anyMatch(name -> name.text(Tags.CODE_VALUE).equals(Optional.of(code)));
  }

  private static List<Dataset> plus(List<Dataset> items, Dataset more) {
    List<Dataset> all = new ArrayList<>(items);
    all.add(more);
    return all;
  }

  private static List<Dataset> without(List<Dataset> items) {
    return items.stream().filter(item -> !named(item, METHOD.value())).toList();
  }

  private static List<Dataset> onNumbers(List<Dataset> items, Dataset method, int most) {
    List<Dataset> all = new ArrayList<>();
    int done = 0;
    for (Dataset item : items) {
      boolean number = item.text(Tags.VALUE_TYPE).equals(Optional.of("NUM"));
      if (number && (named(item, "57108-3") || (done > 0 && done < most))) {
        List<Dataset> below = plus(item.items(Tags.CONTENT_SEQUENCE), method);
        all.add(item.toBuilder().items(Tags.CONTENT_SEQUENCE, below).build());
        done++;
      } else {
        all.add(item);
      }
    }
    return all;
  }

  @Test
  void aSectorThatWasNotMeasuredHasNoNumber() throws Exception {
    Path file = written(true);
    MacularGridReport eye = MacularGridReportReader.read(file).get(0);
    assertFalse(eye.values().containsKey("outer-temporal"));
    assertFalse(eye.values().containsKey("total"));
    assertEquals(9, eye.values().size());
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    assertEquals(0, ToolRun.of("dsrdump", file.toString()).exit());
  }

  /** dcmtk takes the texts out: of the scan below the root, of a sector at its number. */
  @Test
  void whatIsSaidOfTheScanAndWhyASectorHasNoNumberStandsInIt() throws Exception {
    Path file = written(true);
    ToolRun dump = ToolRun.of("dsrdump", "-Ev", "+Pl", file.toString());
    assertEquals(0, dump.exit(), dump.output());
    assertEquals(
        List.of("W: Check for template constraints not yet supported"),
        dump.output().lines().filter(l -> l.matches("[WEF]: .*")).toList());
    for (String remark : REMARKS) {
      assertEquals(1, dump.output().lines().filter(l -> l.contains(remark)).count(), remark);
    }
    String outer = "low-coverage: less than asked for";
    assertTrue(dump.output().contains(outer), dump.output());
    assertTrue(dump.output().contains("incomplete-grid: less than asked for"), dump.output());
    DerivedWriteResult quiet =
        new MacularGridReportWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
            .write(
                SampleGrid.table(Layer.ILM_RPE, true),
                SampleMap.scan(true),
                List.of(),
                MADE,
                folder.resolve("quiet.dcm"));
    assertNotEquals(uid(write(SampleGrid.table(Layer.ILM_RPE, true), MADE, file)), uid(quiet));
  }

  @Test
  void outsideJudgesAndOurCheckerAcceptIt() throws Exception {
    Path file = written(false);
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    ToolRun dump = ToolRun.of("dsrdump", "-Ev", file.toString());
    assertEquals(0, dump.exit(), dump.output());
    assertTrue(dump.output().contains("Macular Grid Thickness and Volume Report"), dump.output());
    assertEquals(
        List.of("W: Check for template constraints not yet supported"),
        dump.output().lines().filter(l -> l.matches("[WEF]: .*")).toList());
    String validator = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(KnownValidatorLimits.GRID_REPORT, validator));
    assertTrue(validator.contains("Information Object Not found"), "the limit is gone");
    String asComprehensive = judgedAsComprehensiveReport();
    assertEquals(List.of(), asComprehensive.lines().filter(l -> l.startsWith("Error")).toList());
  }

  /** The validator knows the modules under another class of report. */
  private String judgedAsComprehensiveReport() throws Exception {
    Path other = folder.resolve("comprehensive.dcm");
    Dataset.Builder object = object().toBuilder();
    object.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.88.33");
    DicomWriters.partTen().write(other, object.build(), new byte[0]);
    return ToolRun.of("dciodvfy", other.toString()).output();
  }

  @Test
  void theSameInputGivesTheSameBytesAndAnotherVersionAnotherUid() throws Exception {
    Path first = written(false);
    Path second = folder.resolve("again.dcm");
    SectorTable table = SampleGrid.table(Layer.ILM_RPE, false);
    write(table, MADE, second);
    assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(second));
    String uid = uid(write(table, MADE, second));
    assertNotEquals(uid, uid(write(table, new DerivedProvenance("0.1.1", ""), second)));
    assertNotEquals(uid, uid(write(SampleGrid.table(Layer.ILM_RPE, true), MADE, second)));
  }

  private static String uid(DerivedWriteResult result) {
    return assertInstanceOf(DerivedWriteResult.Written.class, result).sopInstanceUid();
  }

  @Test
  void otherLayersAreRefused() throws Exception {
    Path file = folder.resolve("none.dcm");
    DerivedWriteResult.Refused refused =
        assertInstanceOf(
            DerivedWriteResult.Refused.class,
            write(SampleGrid.table(Layer.ILM_BM, false), MADE, file));
    assertEquals(DerivedWriteResult.Reason.WITHOUT_DEFINITION, refused.reason());
    assertFalse(Files.exists(file));
  }

  /**
   * The codes are of a grid round the fovea; without a pit the grid lies round the scan's middle.
   */
  @Test
  void aGridThatIsNotRoundTheFoveaIsRefused() throws Exception {
    Path file = folder.resolve("none.dcm");
    for (Landmark.Source source :
        List.of(Landmark.Source.SCAN_MIDDLE, Landmark.Source.DISC_OPENING)) {
      SectorTable table = SampleGrid.table(Layer.ILM_RPE, false, source);
      assertTrue(MacularGridReportWriter.defined(table), "asked for, so that the reason is told");
      DerivedWriteResult.Refused refused =
          assertInstanceOf(DerivedWriteResult.Refused.class, write(table, MADE, file));
      assertEquals(DerivedWriteResult.Reason.WITHOUT_DEFINITION, refused.reason());
      assertTrue(refused.detail().contains(source.code()), refused.detail());
      assertFalse(Files.exists(file));
    }
  }

  @Test
  void theCheckerFindsWhatTheClassDoesNotAllow() throws Exception {
    Dataset report = object();
    Dataset coordinates =
        Dataset.builder()
            .text(Tags.RELATIONSHIP_TYPE, Vr.CS, "CONTAINS")
            .text(Tags.VALUE_TYPE, Vr.CS, "SCOORD")
            .items(Tags.CONCEPT_NAME_CODE_SEQUENCE, new Code("111001", "DCM", "x").toItem())
            .build();
    Dataset millimetres =
        ContentItem.number(
            ContentItem.CONTAINS,
            MacularGridCodes.CENTRE_POINT,
            "0.2",
            new Code("mm", "UCUM", "x"));
    for (Dataset item : List.of(coordinates, millimetres)) {
      List<Dataset> content = new ArrayList<>(report.items(Tags.CONTENT_SEQUENCE));
      content.add(item);
      CheckReport found =
          IodChecker.standard()
              .check(
                  report.toBuilder().items(Tags.CONTENT_SEQUENCE, content).build(),
                  PixelContent.none());
      Rule expected = item.has(Tags.MEASURED_VALUE_SEQUENCE) ? Rule.CODE_ALLOWED : Rule.CONTENT;
      assertEquals(List.of(expected), found.violations().stream().map(v -> v.rule()).toList());
    }
  }

  @Test
  void aReportInOtherUnitsIsNotRead() throws Exception {
    Path file = folder.resolve("units.dcm");
    Dataset report = object();
    Dataset number =
        ContentItem.number(
            ContentItem.CONTAINS,
            MacularGridCodes.CENTRE_POINT,
            "0.2",
            new Code("mm", "UCUM", "x"));
    Dataset findings =
        ContentItem.container(
            ContentItem.CONTAINS, new Code("121070", "DCM", "Findings"), List.of(number));
    DicomWriters.partTen()
        .write(
            file, report.toBuilder().items(Tags.CONTENT_SEQUENCE, findings).build(), new byte[0]);
    assertThrows(ObjectDefect.class, () -> MacularGridReportReader.read(file));
  }
}

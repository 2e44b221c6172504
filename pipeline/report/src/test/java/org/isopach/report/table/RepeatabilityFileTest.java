package org.isopach.report.table;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.report.SampleRepeats;
import org.isopach.report.Software;
import org.junit.jupiter.api.Test;

class RepeatabilityFileTest {
  /** Bland and Altman's pairs; their bias and limits, with the signs turned. */
  @Test
  void writesWhatThePairsGive() {
    List<String> row = RepeatabilityFile.rows(study(SampleRepeats.flow())).get(0);

    assertEquals("ILM-BM", cell(row, "layer"));
    assertEquals("17", cell(row, "n_eyes"));
    assertEquals("34", cell(row, "n_scans"));
    assertEquals("2.1176", cell(row, "bias_um"));
    assertEquals("38.7651", cell(row, "difference_sd_um"));
    assertEquals("-73.8620", cell(row, "lower_limit_um"));
    assertEquals("78.0973", cell(row, "upper_limit_um"));
    // Sqrt of Σd²/(2n) = (16 · 38.765130² + 17 · 2.117647²) / 34.
    assertEquals("26.6348", cell(row, "within_sd_um"));
    assertEquals("foveal-pit", cell(row, "alignment"));
    assertEquals("true", cell(row, "measurable"));
    assertEquals("", cell(row, "reason"));
  }

  @Test
  void saysWhyANumberIsMissing() {
    List<String> two = RepeatabilityFile.rows(study(SampleRepeats.two())).get(0);
    List<String> none = RepeatabilityFile.rows(study(SampleRepeats.of(0))).get(0);

    assertEquals("true", cell(two, "measurable"));
    assertEquals("", cell(two, "bias_um"));
    assertEquals(
        "limits of agreement too-few: needs at least 3 pairs, found 2", cell(two, "reason"));
    assertEquals("false", cell(none, "measurable"));
    assertEquals("", cell(none, "icc"));
    assertTrue(cell(none, "reason").contains("ICC too-few: needs repeats of at least 2 eyes"));
  }

  @Test
  void keepsNumbersNumbersInTheTree() {
    JsonNode root =
        RepeatabilityTree.of(study(SampleRepeats.two()), new Software("Isopach", "9.9"));
    JsonNode sector = root.get("sectors").get(0);

    assertEquals(2, sector.get("n_eyes").asInt());
    assertTrue(sector.get("bias_um").isNull());
    assertTrue(sector.get("within_sd_um").isNumber());
    assertTrue(sector.get("measurable").asBoolean());
    assertEquals(430, sector.get("values").get(1).get("repeats").get(1).get("um").asDouble());
  }

  private static String cell(List<String> row, String column) {
    return row.get(RepeatabilityFile.columns().indexOf(column));
  }

  private static RepeatabilityStudy study(SectorRepeatability sector) {
    return new RepeatabilityStudy(EtdrsGrids.ETDRS_1_3_6, 0, List.of(), List.of(sector));
  }
}

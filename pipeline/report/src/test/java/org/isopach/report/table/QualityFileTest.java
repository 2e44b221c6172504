package org.isopach.report.table;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.FrameQuality;
import org.isopach.analysis.quality.FrameState;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.report.SampleMaps;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class QualityFileTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();

  @TempDir Path folder;

  @Test
  void writesTheScanThenItsFrames() throws IOException {
    Path file = folder.resolve("quality.csv");

    QualityFile.write(file, List.of(graded("2.25.1", Optional.of(Laterality.LEFT))));

    List<String> lines = Files.readAllLines(file);
    assertEquals(
        "patient_id,study_uid,series_uid,sop_uid,acquired,laterality,frame,state,snr_db,"
            + "saturated_fraction,cut_off_fraction,mirrored_fraction,motion_step_um,"
            + "decentration_mm,mean_confidence,fovea_x_mm,fovea_y_mm,disc_x_mm,disc_y_mm,"
            + "disc_area_mm2,disc_complete,fovea_disc_angle_deg,flags,covered_ILM,"
            + "covered_RNFL-GCL,covered_GCL-IPL,covered_IPL-INL,covered_INL-OPL,covered_OPL-ONL,"
            + "covered_ELM,covered_EZ,covered_RPE-inner,covered_RPE,covered_BM,"
            + "covered_choroid-sclera",
        lines.get(0));
    String key = "SP-0001,1.2.2.25.1,1.3,2.25.1,2026-03-04T09:12:00,L,";
    // Left eye: nasal is -x. The disc lies 4 mm nasal of and 1 mm above the fovea: atan(1/4).
    assertEquals(
        key
            + ",measured,21.00,0.0020,0.1000,0.0000,12.5,0.250,0.4500,4.2500,4.1250,0.2500,3.1250,"
            + "2.500,true,14.04,retina-cut-off dark-frames,0.5000,,,,,,,,,,0.3750,",
        lines.get(1));
    assertEquals(
        key + "0,measured,21.00,0.0010,0.1000,0.0000,,,0.9000,,,,,,,,,1.0000,,,,,,,,,,0.7500,",
        lines.get(2));
    assertEquals(
        key + "1,dark,4.00,0.0030,,,-12.5,,0.0000,,,,,,,,,0.0000,,,,,,,,,,0.0000,", lines.get(3));
    assertEquals(4, lines.size());
  }

  @Test
  void scansWithoutALateralityComeLastAndHaveRows() {
    GradedScan unknown = graded("2.25.1", Optional.empty());
    GradedScan left = graded("2.25.2", Optional.of(Laterality.LEFT));
    GradedScan right = graded("2.25.3", Optional.of(Laterality.RIGHT));

    List<List<String>> rows = QualityFile.rows(List.of(unknown, left, right));

    assertEquals(rows, QualityFile.rows(List.of(right, unknown, left)));
    assertEquals(
        List.of("R", "L", ""),
        rows.stream().filter(row -> row.get(6).isEmpty()).map(row -> row.get(5)).toList());
    assertTrue(rows.stream().allMatch(row -> row.size() == QualityFile.columns().size()));
  }

  private static GradedScan graded(String sopUid, Optional<Laterality> laterality) {
    FrameQuality clear =
        new FrameQuality(
            0,
            FrameState.MEASURED,
            OptionalDouble.of(21),
            OptionalDouble.of(0.001),
            OptionalDouble.of(0.1),
            OptionalDouble.of(0),
            NONE,
            Map.of(Boundary.ILM, 1.0, Boundary.BM, 0.75),
            OptionalDouble.of(0.9));
    FrameQuality dark =
        new FrameQuality(
            1,
            FrameState.DARK,
            OptionalDouble.of(4),
            OptionalDouble.of(0.003),
            NONE,
            NONE,
            OptionalDouble.of(-12.5),
            Map.of(Boundary.ILM, 0.0, Boundary.BM, 0.0),
            OptionalDouble.of(0));
    return new GradedScan(
        SampleMaps.scan(sopUid, SampleMaps.FIRST_VISIT),
        laterality,
        new ScanQuality(List.of(clear, dark), OptionalDouble.of(0.25), OptionalDouble.of(2.75)),
        Optional.of(new Landmark(new FundusPoint(4.25, 4.125), Landmark.Source.FOVEAL_PIT)),
        Optional.of(new OpticDisc(new FundusPoint(0.25, 3.125), 2.5, true)),
        List.of(FindingKind.RETINA_CUT_OFF, FindingKind.DARK_FRAMES, FindingKind.DARK_FRAMES));
  }
}

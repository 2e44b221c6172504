package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.FrameQuality;
import org.isopach.analysis.quality.FrameState;
import org.isopach.analysis.quality.ScanQuality;

/**
 * {@code quality.csv}: how good every scan and each of its frames is.
 *
 * <p>For each scan a row with an empty {@code frame}, then one row for each frame, 0-based. The
 * scan's signal is the median of its frames, its motion step the largest without sign, its shares
 * and confidence are means. Landmarks, {@code decentration_mm} and {@code flags} belong to the
 * scan; {@code flags} are the kinds of what {@code run.json} says about it. An empty cell: not
 * known or not looked at. Refused scans have rows too. Ordered by patient, eye (unknown last),
 * time, object.
 */
public final class QualityFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              Stream.of(
                  "patient_id",
                  "study_uid",
                  "series_uid",
                  "sop_uid",
                  "acquired",
                  "laterality",
                  "frame",
                  "state",
                  "snr_db",
                  "saturated_fraction",
                  "cut_off_fraction",
                  "mirrored_fraction",
                  "motion_step_um",
                  "decentration_mm",
                  "mean_confidence",
                  "fovea_x_mm",
                  "fovea_y_mm",
                  "disc_x_mm",
                  "disc_y_mm",
                  "disc_area_mm2",
                  "disc_complete",
                  "fovea_disc_angle_deg",
                  "flags"),
              Stream.of(Boundary.values()).map(boundary -> "covered_" + boundary.code()))
          .toList();

  private static final Comparator<GradedScan> ORDER =
      Comparator.comparing((GradedScan graded) -> graded.scan().patientId())
          .thenComparing(graded -> graded.laterality().map(Laterality::ordinal).orElse(2))
          .thenComparing(graded -> graded.scan().acquired().orElse(LocalDateTime.MAX))
          .thenComparing(graded -> graded.scan().sopUid());

  private static final int LANDMARK_CELLS = 7;

  private QualityFile() {}

  /** Writes the table in its fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<GradedScan> scans) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(scans));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<GradedScan> scans) {
    return scans.stream()
        .sorted(ORDER)
        .flatMap(
            graded ->
                Stream.concat(
                    Stream.of(scanRow(graded)),
                    graded.quality().frames().stream().map(frame -> frameRow(graded, frame))))
        .toList();
  }

  private static List<String> scanRow(GradedScan graded) {
    ScanQuality quality = graded.quality();
    List<String> cells = key(graded);
    cells.add("");
    cells.add(state(quality));
    cells.add(cell(quality.signalToNoiseDb(), 2));
    cells.add(cell(quality.saturatedFraction(), 4));
    cells.add(cell(quality.cutOff(), 4));
    cells.add(cell(quality.mirrored(), 4));
    cells.add(cell(quality.largestMotionStepUm(), 1));
    cells.add(cell(quality.decentrationMm(), 3));
    cells.add(cell(quality.meanConfidence(), 4));
    addLandmarks(cells, graded);
    cells.add(FlagWords.of(graded.flags()));
    addCovered(cells, quality.covered());
    return cells;
  }

  private static List<String> frameRow(GradedScan graded, FrameQuality frame) {
    List<String> cells = key(graded);
    cells.add(Integer.toString(frame.frame()));
    cells.add(frame.state().code());
    cells.add(cell(frame.signalToNoiseDb(), 2));
    cells.add(cell(frame.saturatedFraction(), 4));
    cells.add(cell(frame.cutOff(), 4));
    cells.add(cell(frame.mirrored(), 4));
    cells.add(cell(frame.motionStepUm(), 1));
    cells.add("");
    cells.add(cell(frame.meanConfidence(), 4));
    cells.addAll(Collections.nCopies(LANDMARK_CELLS + 1, ""));
    addCovered(cells, frame.covered());
    return cells;
  }

  private static void addLandmarks(List<String> cells, GradedScan graded) {
    addPlace(cells, graded.fovea().map(Landmark::point));
    addPlace(cells, graded.disc().map(OpticDisc::centre));
    cells.add(graded.disc().map(disc -> TableNumber.fixed(disc.areaMm2(), 3)).orElse(""));
    cells.add(graded.disc().map(disc -> Boolean.toString(disc.complete())).orElse(""));
    cells.add(cell(graded.foveaDiscAngle(), 2));
  }

  private static void addPlace(List<String> cells, Optional<FundusPoint> point) {
    cells.add(point.map(p -> TableNumber.fixed(p.xMm(), 4)).orElse(""));
    cells.add(point.map(p -> TableNumber.fixed(p.yMm(), 4)).orElse(""));
  }

  private static List<String> key(GradedScan graded) {
    return new ArrayList<>(
        List.of(
            graded.scan().patientId(),
            graded.scan().studyUid(),
            graded.scan().seriesUid(),
            graded.scan().sopUid(),
            ScanKey.time(graded.scan().acquired()),
            graded.laterality().map(Laterality::code).orElse("")));
  }

  /** A scan is measured when any frame is. */
  private static String state(ScanQuality quality) {
    return (quality.count(FrameState.MEASURED) > 0 ? FrameState.MEASURED : FrameState.REFUSED)
        .code();
  }

  private static void addCovered(List<String> cells, Map<Boundary, Double> covered) {
    for (Boundary boundary : Boundary.values()) {
      Double share = covered.get(boundary);
      cells.add(share == null ? "" : TableNumber.fixed(share, 4));
    }
  }

  private static String cell(OptionalDouble value, int decimals) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), decimals) : "";
  }
}

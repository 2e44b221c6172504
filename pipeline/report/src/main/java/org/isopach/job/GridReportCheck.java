package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.derive.LayerCode;
import org.isopach.dicom.derive.MacularGridCodes;
import org.isopach.dicom.read.MacularGridReport;

/**
 * Sets a macular grid report beside the sectors. Its LOINC codes are of the thickness from ILM to
 * RPE: a report that states another definition, or none, is shown and not compared.
 */
final class GridReportCheck {
  private final MeasuredScan scan;
  private final CrossLines lines;

  GridReportCheck(MeasuredScan scan, CrossLines lines) {
    this.scan = scan;
    this.lines = lines;
  }

  List<CrossLine> of(MacularGridReport eye) {
    Optional<SectorTable> ours =
        scan.layer(Layer.ILM_RPE)
            .or(() -> scan.layers().stream().findFirst())
            .map(MappedLayer::table);
    String obstacle = obstacle(eye, ours);
    String remark = remark(eye.definition().map(LayerCode::leftOpen).orElse(""));
    List<CrossLine> all = new ArrayList<>();
    for (String place : places()) {
      all.add(line(eye, ours, place, obstacle, remark));
    }
    for (String other : eye.numbers().others()) {
      all.add(
          lines.refused(
              new Pair(other, "", "", Quantity.NONE),
              "the grid of 1, 3 and 6 mm has no value of this code: the codes have nine thicknesses,"
                  + " the centre point and the total volume"));
    }
    return all;
  }

  /** Says what a report never tells: round which centre its grid lies. */
  private String remark(String leftOpen) {
    boolean pit =
        scan.place()
            .filter(place -> place.centre().source() == Landmark.Source.FOVEAL_PIT)
            .isPresent();
    String centre =
        "the centre of the report's grid is not known" + (pit ? "" : ", and ours is no foveal pit");
    return leftOpen.isEmpty() ? centre : leftOpen + "; " + centre;
  }

  private static List<String> places() {
    List<String> places = new ArrayList<>(MacularGridCodes.SECTORS.keySet());
    places.add(SectorGrid.TOTAL);
    places.add(MacularGridReport.CENTRE_POINT);
    return places;
  }

  /** Returns why nothing of the report can be compared; empty when it can. */
  private String obstacle(MacularGridReport eye, Optional<SectorTable> ours) {
    Optional<Code> definition = eye.definition();
    if (definition.isEmpty()) {
      return "the report does not state, once for all its numbers, between which surfaces its thickness"
          + " lies";
    }
    if (definition.flatMap(LayerCode::layer).filter(Layer.ILM_RPE::equals).isEmpty()) {
      return "definitions differ: the report states "
          + definition.get()
          + ", its LOINC codes are of the thickness from ILM to RPE";
    }
    double scale = scan.place().map(MeasuredScan.Place::lateralScale).orElse(1.0);
    if (scale != 1) {
      return "lengths here were corrected for the eye's length (factor "
          + scale
          + "); whether the report's were is not known";
    }
    if (ours.isEmpty()) {
      return "no sector was measured in the scan";
    }
    if (!ours.get().layer().equals(Layer.ILM_RPE)) {
      return "definitions differ: theirs is ILM-RPE, which was not measured here, ours is "
          + ours.get().layer().name();
    }
    if (!ours.get().grid().equals(EtdrsGrids.ETDRS_1_3_6)) {
      return "grids differ: the report's has circles of 1, 3 and 6 mm, ours is "
          + ours.get().grid().name();
    }
    return "";
  }

  private CrossLine line(
      MacularGridReport eye,
      Optional<SectorTable> ours,
      String place,
      String obstacle,
      String remark) {
    boolean total = place.equals(SectorGrid.TOTAL);
    Pair pair =
        new Pair(
            eye.definition().map(Code::toString).orElse("not stated"),
            ours.map(table -> table.layer().name()).orElse(""),
            place,
            total ? Quantity.VOLUME : Quantity.THICKNESS);
    OptionalDouble theirs = value(eye.values(), place);
    Optional<SectorResult> result = ours.flatMap(table -> result(table, place));
    OptionalDouble here = result.map(one -> value(one, total)).orElse(OptionalDouble.empty());
    if (!obstacle.isEmpty()) {
      return lines.refused(pair, theirs, here, obstacle);
    }
    String unusable = eye.numbers().unusable().get(place);
    if (unusable != null) {
      return lines.refused(pair, theirs, here, unusable);
    }
    if (theirs.isEmpty()) {
      return lines.refused(pair, theirs, here, "the report has no value");
    }
    if (here.isEmpty()) {
      return lines.refused(pair, theirs, here, reason(result));
    }
    return lines.values(
        pair, theirs.getAsDouble(), here.getAsDouble(), OptionalDouble.empty(), remark);
  }

  private static Optional<SectorResult> result(SectorTable table, String place) {
    return place.equals(MacularGridReport.CENTRE_POINT)
        ? Optional.of(table.centrePoint())
        : table.sector(place);
  }

  private static OptionalDouble value(Map<String, Double> values, String place) {
    Double value = values.get(place);
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  private static OptionalDouble value(SectorResult result, boolean volume) {
    return result instanceof Measured measured
        ? OptionalDouble.of(volume ? measured.volumeMm3() : measured.meanUm())
        : OptionalDouble.empty();
  }

  static String reason(Optional<SectorResult> result) {
    return result.orElse(null) instanceof NotMeasurable refused
        ? "not measured here: " + refused.reason().code() + ": " + refused.detail()
        : "not measured here";
  }
}

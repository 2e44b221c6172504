package org.isopach.job;

import java.util.Optional;
import org.isopach.analysis.cross.FieldPlace;
import org.isopach.analysis.cross.FieldValues;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.derive.MapFrame;
import org.isopach.dicom.read.PlacedMap;

/** Lays the pixels of somebody's map on a scan, seen from the centre of the scan's grid. */
final class MapPlacer {
  private final OctScan scan;
  private final Optional<MeasuredScan.Place> here;

  /**
   * Pixels laid on a scan.
   *
   * @param place where they lie, from the centre of the scan's grid, in the scan's mm
   * @param way {@code fundus-image}, {@code frame-of-reference} or {@code fovea}
   */
  record Placed(FieldPlace place, String way) {}

  MapPlacer(MeasuredScan measured) {
    this(measured.scan(), measured.place());
  }

  /** Makes a placer for a scan that lies elsewhere, or whose grid has another centre. */
  MapPlacer(OctScan scan, Optional<MeasuredScan.Place> here) {
    this.scan = scan;
    this.here = here;
  }

  /** Returns the first way that leads to the scan, or empty. */
  Optional<Placed> place(PlacedMap map) {
    if (here.isEmpty()) {
      return Optional.empty();
    }
    for (PlacedMap.Anchor anchor : map.anchors()) {
      Optional<Placed> placed = place(anchor, map.values());
      if (placed.isPresent()) {
        return placed;
      }
    }
    return Optional.empty();
  }

  /** Returns why a map that could not be placed has no place here. */
  String obstacle(PlacedMap map) {
    if (!map.noPlace().isEmpty()) {
      return map.noPlace();
    }
    boolean byFovea = map.anchors().stream().anyMatch(PlacedMap.FromFovea.class::isInstance);
    if (byFovea && here.isPresent() && scale() != 1) {
      return "only the fovea joins it to the scan, whose lengths were corrected for the eye's"
          + " length (factor "
          + scale()
          + "); whether the map's were is not known";
    }
    return "it does not lie in the coordinates of the scan, and no fovea joins them";
  }

  private Optional<Placed> place(PlacedMap.Anchor anchor, FieldValues values) {
    if (anchor instanceof PlacedMap.OnImage image) {
      return onImage(image, values).map(place -> new Placed(place, "fundus-image"));
    }
    if (anchor instanceof PlacedMap.InFrame frame) {
      return inFrame(frame).map(place -> new Placed(place, "frame-of-reference"));
    }
    return Optional.of((PlacedMap.FromFovea) anchor)
        .filter(fovea -> centre().source() == Landmark.Source.FOVEAL_PIT && scale() == 1)
        .map(fovea -> new Placed(fovea.place(), "fovea"));
  }

  private Optional<FieldPlace> onImage(PlacedMap.OnImage anchor, FieldValues values) {
    FundusFrame wanted = new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, anchor.imageUid());
    Optional<ReferenceImage> image =
        scan.reference().filter(one -> one.sopUid().equals(anchor.imageUid()));
    if (image.isEmpty() || scan.path().map(ScanPath::frame).filter(wanted::equals).isEmpty()) {
      return Optional.empty();
    }
    double rowMm = image.get().rowSpacingMm();
    double columnMm = image.get().columnSpacingMm();
    double across = (anchor.lastColumn() - anchor.firstColumn()) * columnMm / values.columns();
    double down = (anchor.lastRow() - anchor.firstRow()) * rowMm / values.rows();
    if (across == 0 || down == 0) {
      return Optional.empty();
    }
    FieldPlace place =
        new FieldPlace(
            new FundusPoint(
                anchor.firstColumn() * columnMm + across / 2, anchor.firstRow() * rowMm + down / 2),
            new FundusPoint(across, 0),
            new FundusPoint(0, down));
    return Optional.of(place.times(scale()).minus(centre().point()));
  }

  private Optional<FieldPlace> inFrame(PlacedMap.InFrame anchor) {
    FundusFrame wanted = new FundusFrame(FundusFrame.Kind.PATIENT, anchor.frameUid());
    boolean own = scan.path().map(ScanPath::frame).filter(wanted::equals).isPresent();
    String uid = scan.identity().sopUid();
    if (anchor.frameUid().isEmpty()) {
      return Optional.empty();
    }
    if (own || anchor.frameUid().equals(MapFrame.uid(uid, 1))) {
      return Optional.of(anchor.place().times(scale()).minus(centre().point()));
    }
    return anchor.frameUid().equals(MapFrame.uid(uid, scale()))
        ? Optional.of(anchor.place().minus(centre().point()))
        : Optional.empty();
  }

  private Landmark centre() {
    return here.orElseThrow().centre();
  }

  private double scale() {
    return here.orElseThrow().lateralScale();
  }
}

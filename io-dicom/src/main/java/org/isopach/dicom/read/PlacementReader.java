package org.isopach.dicom.read;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Finds where a tomography's A-scans lie: by Ophthalmic Frame Location when that is usable, else by
 * Plane Position and Orientation, else not at all.
 */
final class PlacementReader {
  private static final double SCALE_TOLERANCE = 0.02;

  private final Map<String, Localizer> localizers;
  private final Remarks remarks;

  PlacementReader(Map<String, Localizer> localizers, Remarks remarks) {
    this.localizers = localizers;
    this.remarks = remarks;
  }

  /**
   * Returns the places, or empty with a NO_PLACEMENT finding.
   *
   * @throws ObjectDefect when the frames do not cut the retina from the vitreous outwards
   */
  Optional<Placement> place(
      Dataset object, FunctionalGroups groups, PixelMeasures measures, int frames, int ascans)
      throws ObjectDefect {
    FrameLocations locations = new FrameLocations(groups, frames, ascans);
    PlanePositions planes = new PlanePositions(groups, frames, ascans);
    if (locations.anyTransverse()) {
      throw new ObjectDefect(FindingKind.NOT_RETINAL_SECTION, "a frame is TRANSVERSE");
    }
    if (planes.anyForwards()) {
      throw new ObjectDefect(
          FindingKind.UPSIDE_DOWN,
          "Image Orientation (Patient) (0020,0037) says that depth runs forwards, out of the eye");
    }
    if (ascans < 2) {
      remarks.add(FindingKind.NO_PLACEMENT, "the frames have one A-scan only");
      return Optional.empty();
    }
    return firstUsable(object, locations, planes, measures);
  }

  private Optional<Placement> firstUsable(
      Dataset object, FrameLocations locations, PlanePositions planes, PixelMeasures measures) {
    String why;
    try {
      Placement placement = locations.place(localizers, measures, remarks);
      compareScales(placement, measures);
      return Optional.of(placement);
    } catch (Unusable e) {
      why = e.getMessage();
    }
    try {
      String uid = object.text(Tags.FRAME_OF_REFERENCE_UID).orElse("");
      Placement placement = planes.place(measures, uid);
      if (locations.present()) {
        remarks.add(FindingKind.ATTRIBUTE_IGNORED, why + "; Plane Position was used instead");
      }
      return Optional.of(placement);
    } catch (Unusable e) {
      remarks.add(FindingKind.NO_PLACEMENT, why + "; " + e.getMessage());
      return Optional.empty();
    }
  }

  private void compareScales(Placement placement, PixelMeasures measures) {
    OptionalDouble stated = measures.meanAlongMm();
    double placed = placement.path().ascanSpacingMm();
    if (stated.isPresent() && Math.abs(stated.getAsDouble() - placed) > SCALE_TOLERANCE * placed) {
      remarks.add(
          FindingKind.SCALE_CONTRADICTION,
          "Pixel Spacing says "
              + Rounded.of(stated.getAsDouble())
              + " mm along the scan, the place on the fundus image "
              + Rounded.of(placed)
              + " mm, which was used");
    }
  }
}

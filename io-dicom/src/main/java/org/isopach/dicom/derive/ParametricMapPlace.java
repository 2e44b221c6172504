package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * Where a parametric map lies: always the axes of the patient-relative system as ours has them (row
 * along +X, down along -Z; see docs/geometry.md).
 *
 * <p>Only a map of a scan placed in a patient-relative system, in its stated lengths, is in the
 * scan's own frame of reference; any other gets one of its own, named after the scan, whose origin
 * is that of our fundus coordinates.
 */
final class ParametricMapPlace {
  private ParametricMapPlace() {}

  /** Adds the frame of reference and the plane to the shared functional groups. */
  static void addTo(Dataset.Builder object, MicrometreMap map, String frame) {
    Dataset shared = object.build().items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0);
    MapLattice lattice = map.lattice();
    FundusPoint centre = map.centre().point();
    String step = DecimalText.of(lattice.stepMm());
    object
        .text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, frame)
        .text(Tags.POSITION_REFERENCE_INDICATOR, Vr.LO)
        .items(
            Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
            shared.toBuilder()
                .items(
                    Tags.PIXEL_MEASURES_SEQUENCE,
                    Dataset.builder()
                        .text(Tags.PIXEL_SPACING, Vr.DS, step, step)
                        .text(Tags.SLICE_THICKNESS, Vr.DS, step)
                        .build())
                .items(
                    Tags.PLANE_POSITION_SEQUENCE,
                    Dataset.builder()
                        .text(
                            Tags.IMAGE_POSITION_PATIENT,
                            Vr.DS,
                            DecimalText.of(centre.xMm() + lattice.firstXMm()),
                            "0",
                            DecimalText.of(0.0 - centre.yMm() - lattice.firstYMm()))
                        .build())
                .items(
                    Tags.PLANE_ORIENTATION_SEQUENCE,
                    Dataset.builder()
                        .text(Tags.IMAGE_ORIENTATION_PATIENT, Vr.DS, "1", "0", "0", "0", "0", "-1")
                        .build())
                .build());
  }

  static String frameOfReference(OctScan scan, double scale) {
    Optional<FundusFrame> frame = scan.path().map(ScanPath::frame);
    return frame
        .filter(f -> f.kind() == FundusFrame.Kind.PATIENT && !f.uid().isEmpty() && scale == 1)
        .map(FundusFrame::uid)
        .orElseGet(() -> MapFrame.uid(scan.identity().sopUid(), scale));
  }
}

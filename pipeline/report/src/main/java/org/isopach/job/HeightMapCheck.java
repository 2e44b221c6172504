package org.isopach.job;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.cross.Differences;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.dicom.derive.HeightMapWriter;
import org.isopach.dicom.derive.OtherSurface;
import org.isopach.dicom.derive.SurfaceCode;
import org.isopach.dicom.read.HeightMap;

/**
 * Sets surfaces beside our boundaries, A-scan by A-scan. Only a surface with the code of one of our
 * boundaries is compared, and with that one.
 */
final class HeightMapCheck {
  private static final String ASCANS = "ascans";

  private final MeasuredScan scan;
  private final CrossLines lines;

  HeightMapCheck(MeasuredScan scan, CrossLines lines) {
    this.scan = scan;
    this.lines = lines;
  }

  List<CrossLine> of(List<HeightMap> surfaces) {
    String uid = scan.scan().identity().sopUid();
    return surfaces.stream()
        .filter(surface -> surface.sources().isEmpty() || surface.sources().contains(uid))
        .map(this::line)
        .toList();
  }

  private CrossLine line(HeightMap theirs) {
    String words = theirs.surface().toString();
    Optional<Boundary> boundary = SurfaceCode.boundary(theirs.surface());
    if (boundary.isEmpty()) {
      OtherSurface other = OtherSurface.of(theirs.surface());
      return lines.refused(pair(words, other.nearest()), "definitions differ: " + other.why());
    }
    Pair pair = pair(words, boundary);
    if (theirs.frames() != scan.scan().size().frames()
        || theirs.ascans() != scan.scan().size().ascans()) {
      return lines.refused(
          pair,
          "it is of "
              + theirs.frames()
              + " frames of "
              + theirs.ascans()
              + " A-scans, the scan of "
              + scan.scan().size().frames()
              + " of "
              + scan.scan().size().ascans());
    }
    Optional<BoundarySurface> ours = scan.boundaries().flatMap(set -> set.surface(boundary.get()));
    return ours.map(surface -> lines.places(pair, differences(theirs, surface), ""))
        .orElseGet(() -> lines.refused(pair, "the boundary was not looked for here"));
  }

  private static Pair pair(String theirs, Optional<Boundary> ours) {
    return new Pair(theirs, ours.map(Boundary::code).orElse(""), ASCANS, Quantity.DEPTH);
  }

  /**
   * Returns the differences in µm; a height beyond the frame counts as it is, a depth of ours of
   * too little confidence as none.
   */
  private Differences differences(HeightMap theirs, BoundarySurface ours) {
    double um = scan.scan().axial().micrometresPerPixel();
    Differences.Collector collector = new Differences.Collector();
    for (int f = 0; f < theirs.frames(); f++) {
      for (int a = 0; a < theirs.ascans(); a++) {
        double rows = theirs.rowsFromTop(f, a);
        double depth =
            Double.isInfinite(rows) ? Double.NaN : rows - HeightMapWriter.TOP_OF_FIRST_PIXEL;
        boolean sure = ours.confidence(f, a) >= InterpolationRules.DEFAULT.minimumConfidence();
        collector.add(depth * um, sure ? ours.depthPx(f, a) * um : Double.NaN);
      }
    }
    return collector.result();
  }
}

package org.isopach.cli.accuracy;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.job.MappedLayer;
import org.isopach.job.MeasuredScan;

/**
 * Measures a scan and its mirror image, as the other eye. The mirrored scan runs left to right as
 * well: each frame's A-scans change places, and x becomes -x.
 */
final class MirrorTrial {
  /**
   * Largest differences of any number in the tables of a scan and its mirror image, in µm; infinite
   * when one has a number that the other lacks.
   *
   * @param analysisUm when the mirrored boundaries are given
   * @param chainUm when the mirrored pictures are segmented
   */
  record Difference(double analysisUm, double chainUm) {}

  private MirrorTrial() {}

  static Difference run(Chain chain, OctScan scan) throws InterruptedException {
    MeasuredScan plain = chain.measure(scan);
    OctScan mirrored = mirrored(scan);
    MeasuredScan chained = chain.measure(mirrored);
    double chainUm =
        plain.layers().size() == chained.layers().size() ? 0 : Double.POSITIVE_INFINITY;
    double analysisUm = 0;
    for (int i = 0; i < Math.min(plain.layers().size(), chained.layers().size()); i++) {
      MappedLayer layer = plain.layers().get(i);
      chainUm = Math.max(chainUm, difference(layer.table(), chained.layers().get(i).table()));
      analysisUm = Math.max(analysisUm, difference(layer.table(), table(plain, layer, mirrored)));
    }
    return new Difference(analysisUm, chainUm);
  }

  private static SectorTable table(MeasuredScan plain, MappedLayer layer, OctScan mirrored) {
    Landmark centre = plain.place().orElseThrow().centre();
    FundusPoint point = new FundusPoint(-centre.point().xMm(), centre.point().yMm());
    return GivenCentre.table(
        mirrored,
        mirrored.path().orElseThrow(),
        mirrored(plain.boundaries().orElseThrow()),
        layer,
        new Landmark(point, centre.source()));
  }

  private static double difference(SectorTable a, SectorTable b) {
    double most = difference(a.centrePoint(), b.centrePoint());
    List<SectorResult> other = b.sectors();
    for (int i = 0; i < other.size(); i++) {
      most = Math.max(most, difference(a.sectors().get(i), other.get(i)));
    }
    return most;
  }

  private static double difference(SectorResult a, SectorResult b) {
    if (a instanceof Measured first && b instanceof Measured second) {
      return Math.abs(first.meanUm() - second.meanUm());
    }
    return a instanceof Measured || b instanceof Measured ? Double.POSITIVE_INFINITY : 0;
  }

  private static OctScan mirrored(OctScan scan) {
    int width = scan.size().ascans();
    int height = scan.size().depths();
    FrameSource frames =
        (frame, into) -> {
          scan.frames().read(frame, into);
          for (int d = 0; d < height; d++) {
            reverse(into, d * width, width);
          }
        };
    return new OctScan(
        scan.identity(),
        scan.document(),
        scan.laterality().map(side -> side.other()),
        scan.size(),
        scan.axial(),
        scan.path().map(MirrorTrial::mirrored),
        Optional.empty(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }

  private static ScanPath mirrored(ScanPath path) {
    int n = path.frames() * path.ascans();
    double[] x = new double[n];
    double[] y = new double[n];
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a < path.ascans(); a++) {
        int from = path.ascans() - 1 - a;
        x[f * path.ascans() + a] = -path.xMm(f, from);
        y[f * path.ascans() + a] = path.yMm(f, from);
      }
    }
    return ScanPath.ofPoints(path.frames(), path.ascans(), x, y, path.frame());
  }

  private static BoundarySet mirrored(BoundarySet set) {
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    for (Boundary boundary : set.boundaries()) {
      BoundarySurface surface = set.surface(boundary).orElseThrow();
      float[] depth = new float[set.frames() * set.ascans()];
      float[] confidence = new float[depth.length];
      for (int i = 0; i < depth.length; i++) {
        int f = i / set.ascans();
        int a = set.ascans() - 1 - i % set.ascans();
        depth[i] = surface.depthPx(f, a);
        confidence[i] = surface.confidence(f, a);
      }
      surfaces.put(boundary, new BoundarySurface(set.frames(), set.ascans(), depth, confidence));
    }
    return new BoundarySet(surfaces);
  }

  private static void reverse(float[] values, int from, int count) {
    for (int i = 0; i < count / 2; i++) {
      float value = values[from + i];
      values[from + i] = values[from + count - 1 - i];
      values[from + count - 1 - i] = value;
    }
  }
}

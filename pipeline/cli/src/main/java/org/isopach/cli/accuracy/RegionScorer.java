package org.isopach.cli.accuracy;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.fixtures.phantom.Region;

/**
 * Compares labelled voxels with the true ones. The volume of voxels is their height times the area
 * round their A-scan on the fundus, where the outermost frames count half (docs/measurements.md,
 * "Regions"). Frames taken during a blink are left out on both sides.
 */
final class RegionScorer {
  /** Diameter in mm of the circle round the true foveola for volumes of the anatomy. */
  static final double CIRCLE_MM = 5;

  private final PhantomTruth truth;
  private final RegionLabels found;
  private final ScanPath path;
  private final double voxelNl;
  private final Map<RegionKind, Overlap> overlaps = new EnumMap<>(RegionKind.class);
  private final double[] trueNl = new double[RegionKind.values().length + 1];
  private final double[] foundNl = new double[RegionKind.values().length + 1];
  private final double[] circleNl = new double[RegionKind.values().length + 1];

  private RegionScorer(PhantomScan phantom, RegionLabels found) {
    this.truth = phantom.truth();
    this.found = found;
    this.path = phantom.scan().path().orElseThrow();
    // One mm² of fundus under one µm of height is one nL.
    this.voxelNl = path.ascanSpacingMm() * path.frameSpacingMm() * phantom.plan().axialUm();
    for (RegionKind kind : RegionKind.values()) {
      overlaps.put(kind, new Overlap());
    }
  }

  /** Returns the score of every kind. */
  static Map<RegionKind, RegionScore> of(PhantomScan phantom, RegionLabels found) {
    RegionScorer scorer = new RegionScorer(phantom, found);
    ScanSize size = phantom.truth().size();
    for (int f = 0; f < size.frames(); f++) {
      if (!phantom.truth().blink(f)) {
        scorer.add(f, f == 0 || f == size.frames() - 1 ? 0.5 : 1);
      }
    }
    Map<RegionKind, RegionScore> scores = new EnumMap<>(RegionKind.class);
    for (RegionKind kind : RegionKind.values()) {
      scores.put(kind, scorer.score(kind));
    }
    return scores;
  }

  private void add(int frame, double weight) {
    byte[] expected = truth.regions(frame);
    byte[] labels = found.frame(frame);
    boolean[] inCircle = inCircle(frame);
    for (int i = 0; i < labels.length; i++) {
      if (expected[i] != 0 || labels[i] != 0) {
        add(expected[i], labels[i], weight * voxelNl, inCircle[i % inCircle.length]);
      }
    }
  }

  private void add(int expected, int label, double nl, boolean inCircle) {
    trueNl[expected] += nl;
    foundNl[label] += nl;
    circleNl[label] += inCircle ? nl : 0;
    for (RegionKind kind : RegionKind.values()) {
      overlaps.get(kind).add(expected == kind.label(), label == kind.label());
    }
  }

  private boolean[] inCircle(int frame) {
    FundusPoint fovea = truth.fovea();
    boolean[] inside = new boolean[truth.size().ascans()];
    for (int a = 0; a < inside.length; a++) {
      inside[a] = path.point(frame, a).distanceMm(fovea) <= CIRCLE_MM / 2;
    }
    return inside;
  }

  private RegionScore score(RegionKind kind) {
    double anatomy =
        trueNl[kind.label()] > 0 ? truth.volumeNl(region(kind), CIRCLE_MM) : Double.NaN;
    return new RegionScore(
        kind,
        overlaps.get(kind),
        trueNl[kind.label()],
        foundNl[kind.label()],
        anatomy,
        circleNl[kind.label()]);
  }

  private static Region region(RegionKind kind) {
    for (Region region : Region.values()) {
      if (region.code() == kind.label()) {
        return region;
      }
    }
    throw new IllegalArgumentException("the phantom has no " + kind.code());
  }
}

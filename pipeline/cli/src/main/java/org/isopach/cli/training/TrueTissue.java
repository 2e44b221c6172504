package org.isopach.cli.training;

import java.util.Arrays;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueGrid;

/**
 * How much of each tissue the cells of a frame truly hold, from the exact boundaries and regions.
 */
final class TrueTissue {
  private static final Tissue[] TISSUES = Tissue.values();
  private static final Tissue[] OF_LABEL = {
    null,
    Tissue.INTRARETINAL_FLUID,
    Tissue.SUBRETINAL_FLUID,
    Tissue.RPE_ELEVATION,
    Tissue.HYPERREFLECTIVE_MATERIAL
  };

  private final PhantomTruth truth;
  private final TissueGrid grid;
  private final float[] column;

  TrueTissue(PhantomTruth truth, TissueGrid grid) {
    this.truth = truth;
    this.grid = grid;
    this.column = new float[truth.size().depths() * TISSUES.length];
  }

  /**
   * Returns the share of each tissue in each cell, index {@code cell * tissues + tissue}; shares of
   * a cell sum to 1.
   */
  float[] shares(int frame) {
    int n = TISSUES.length;
    float[] shares = new float[grid.cells() * n];
    byte[] regions = truth.regions(frame);
    float part = 1f / (grid.ascansPerCell() * grid.depthsPerCell());
    for (int a = 0; a < grid.columns() * grid.ascansPerCell(); a++) {
      fillColumn(frame, a, regions);
      for (int d = 0; d < grid.rows() * grid.depthsPerCell(); d++) {
        int cell = d / grid.depthsPerCell() * grid.columns() + a / grid.ascansPerCell();
        for (int t = 0; t < n; t++) {
          shares[cell * n + t] += part * column[d * n + t];
        }
      }
    }
    return shares;
  }

  private void fillColumn(int frame, int ascan, byte[] regions) {
    Arrays.fill(column, 0);
    boolean disc = Double.isNaN(truth.depthPx(Boundary.BM, frame, ascan)) && inDisc(frame, ascan);
    double from = Double.NEGATIVE_INFINITY;
    Tissue above = Tissue.VITREOUS;
    for (Tissue tissue : TISSUES) {
      if (tissue.beginsAt().isEmpty()) {
        continue;
      }
      double at = truth.depthPx(tissue.beginsAt().get(), frame, ascan);
      if (Double.isNaN(at)) {
        continue;
      }
      addRun(above, from, at);
      above = disc ? Tissue.DISC : tissue;
      from = at;
    }
    addRun(above, from, Double.POSITIVE_INFINITY);
    int ascans = truth.size().ascans();
    for (int d = 0; d < truth.size().depths(); d++) {
      int label = regions[d * ascans + ascan];
      if (label > 0) {
        Arrays.fill(column, d * TISSUES.length, (d + 1) * TISSUES.length, 0);
        column[d * TISSUES.length + OF_LABEL[label].index()] = 1;
      }
    }
  }

  private boolean inDisc(int frame, int ascan) {
    FundusPoint beam = truth.beam(frame, ascan);
    int sign = truth.eye().laterality().nasalSign();
    return truth.eye().inDisc(new FundusPoint(sign * truth.nasalMm(beam), -truth.superiorMm(beam)));
  }

  /** Adds a run of one tissue; pixel d reaches from d - 0.5 to d + 0.5. */
  private void addRun(Tissue tissue, double from, double to) {
    int depths = truth.size().depths();
    int first = (int) Math.max(0, Math.floor(from + 0.5));
    int last = (int) Math.min(depths - 1.0, Math.floor(to + 0.5));
    for (int d = first; d <= last; d++) {
      double part = Math.min(to, d + 0.5) - Math.max(from, d - 0.5);
      if (part > 0) {
        column[d * TISSUES.length + tissue.index()] += (float) part;
      }
    }
  }
}

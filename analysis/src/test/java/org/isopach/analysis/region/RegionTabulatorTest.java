package org.isopach.analysis.region;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.testing.Paths;
import org.isopach.analysis.testing.Scans;
import org.junit.jupiter.api.Test;

/** Sizes of regions against closed forms. */
class RegionTabulatorTest {
  private static final double AXIAL_MM = Scans.MICROMETRES_PER_PIXEL / 1000;
  private static final FundusPoint MIDDLE = new FundusPoint(0.7, -0.4);
  private static final MapLattice LATTICE = MapLattice.centred(3, 0.02);
  private static final RegionTabulator TABULATOR =
      new RegionTabulator(
          new MapInterpolator(InterpolationRules.DEFAULT), new SectorTabulator(), 0.9);

  /** Frames 0.2 mm apart, A-scans 0.1 mm apart, 6.2 x 6.2 mm. */
  private static ScanPath raster() {
    return Paths.raster(Paths.even(32, 6.2), 63, 6.2, 0, MIDDLE);
  }

  @Test
  void aBoxHasTheVolumeOfItsVoxels() {
    Drawing drawing = new Drawing(raster());
    drawing.box(10, 15, 100, 120, 20, 28, RegionKind.SUBRETINAL_FLUID);

    RegionTable table = drawing.table(RegionKind.SUBRETINAL_FLUID);
    MeasuredRegion whole = measured(table.whole());
    assertEquals(5 * 0.2 * 8 * 0.1 * 20 * AXIAL_MM * 1000, whole.volumeNl(), 1e-9);
    assertEquals(5 * 0.2 * 8 * 0.1, whole.areaMm2(), 1e-12);
    assertEquals(20 * Scans.MICROMETRES_PER_PIXEL, whole.maxHeightUm(), 1e-9);
    assertEquals(6.2 * 6.2, whole.placeAreaMm2(), 1e-9);
    assertEquals(1, whole.coveredFraction(), 1e-12);
    RegionTable.Found found = table.found().orElseThrow();
    assertEquals(1, found.regions());
    assertEquals(10, found.largestSection().orElseThrow().frame());
    assertEquals(8 * 0.1 * 20 * AXIAL_MM, found.largestSection().orElseThrow().areaMm2(), 1e-12);

    MeasuredRegion other = measured(drawing.table(RegionKind.INTRARETINAL_FLUID).whole());
    assertEquals(0, other.volumeNl());
    assertEquals(Optional.of(false), other.present());
  }

  @Test
  void theOutermostFrameCountsHalf() {
    Drawing drawing = new Drawing(raster());
    drawing.box(0, 1, 100, 120, 20, 28, RegionKind.SUBRETINAL_FLUID);
    MeasuredRegion whole = measured(drawing.table(RegionKind.SUBRETINAL_FLUID).whole());
    assertEquals(0.1 * 8 * 0.1 * 20 * AXIAL_MM * 1000, whole.volumeNl(), 1e-9);
  }

  /** Volume 4/3 π abc, area πab, height 2c: closed form. Voxels of 50 x 25 x 3.87 µm. */
  @Test
  void anEllipsoidLiesWhollyInItsSectorInEitherEye() {
    for (Laterality laterality : Laterality.values()) {
      ScanPath path = Paths.raster(Paths.even(125, 6.2), 249, 6.2, 0, MIDDLE);
      Drawing drawing = new Drawing(path, Optional.of(laterality));
      double nasal = laterality.nasalSign() * 1.0;
      drawing.ellipsoid(nasal, 0, 200, 0.36, 0.30, 0.10, RegionKind.INTRARETINAL_FLUID);

      RegionTable table = drawing.table(RegionKind.INTRARETINAL_FLUID);
      double volume = 4.0 / 3 * Math.PI * 0.36 * 0.30 * 0.10 * 1000;
      MeasuredRegion whole = measured(table.whole());
      MeasuredRegion sector = measured(table.place("inner-nasal").orElseThrow());
      assertEquals(volume, whole.volumeNl(), 0.01 * volume);
      assertEquals(volume, sector.volumeNl(), 0.01 * volume);
      // 12 steps across an ellipse: the trapezoid rule falls 1.0 x 12^-1.5 = 2.5 % short, and
      // A-scans of 25 µm leave up to half a step at either end.
      assertEquals(Math.PI * 0.36 * 0.30, sector.areaMm2(), 0.04 * Math.PI * 0.36 * 0.30);
      assertEquals(200, sector.maxHeightUm(), 2 * Scans.MICROMETRES_PER_PIXEL);
      assertEquals(1, table.found().orElseThrow().regions());
      for (RegionResult place : table.sectors()) {
        boolean here = place.place().equals("inner-nasal") || place.place().equals("total");
        assertEquals(Optional.of(here), place.present(), place.place());
      }
      MeasuredRegion total = measured(table.place(SectorGrid.TOTAL).orElseThrow());
      assertEquals(whole.volumeNl(), total.volumeNl(), 1e-3 * volume);
    }
  }

  @Test
  void anEyeAndItsMirrorImageHaveTheSameNumbers() {
    Drawing right = new Drawing(raster(), Optional.of(Laterality.RIGHT));
    right.box(9, 18, 90, 131, 11, 40, RegionKind.RPE_ELEVATION);
    Drawing left = new Drawing(raster().mirrored(), Optional.of(Laterality.LEFT));
    left.box(9, 18, 90, 131, 63 - 40, 63 - 11, RegionKind.RPE_ELEVATION);
    List<RegionResult> one = right.table(RegionKind.RPE_ELEVATION).sectors();
    List<RegionResult> other = left.table(RegionKind.RPE_ELEVATION).sectors();
    for (int i = 0; i < one.size(); i++) {
      MeasuredRegion a = measured(one.get(i));
      MeasuredRegion b = measured(other.get(i));
      assertEquals(a.volumeNl(), b.volumeNl(), 1e-9, a.place());
      assertEquals(a.maxHeightUm(), b.maxHeightUm(), a.place());
    }
  }

  @Test
  void heightIsThatOfOneRunAndVolumeOfAll() {
    Drawing drawing = new Drawing(raster());
    drawing.box(10, 15, 100, 110, 20, 28, RegionKind.INTRARETINAL_FLUID);
    drawing.box(10, 15, 140, 170, 20, 28, RegionKind.INTRARETINAL_FLUID);
    RegionTable table = drawing.table(RegionKind.INTRARETINAL_FLUID);
    MeasuredRegion whole = measured(table.whole());
    assertEquals(30 * Scans.MICROMETRES_PER_PIXEL, whole.maxHeightUm(), 1e-9);
    assertEquals(5 * 0.2 * 8 * 0.1 * 40 * AXIAL_MM * 1000, whole.volumeNl(), 1e-9);
    assertEquals(2, table.found().orElseThrow().regions());
  }

  @Test
  void regionsJoinAtCornersWithinAFrameAndWhereTheyOverlapAcrossFrames() {
    Drawing drawing = new Drawing(raster());
    drawing.box(10, 11, 100, 110, 20, 24, RegionKind.INTRARETINAL_FLUID);
    drawing.box(10, 11, 110, 120, 24, 28, RegionKind.INTRARETINAL_FLUID);
    drawing.box(11, 12, 109, 115, 20, 24, RegionKind.INTRARETINAL_FLUID);
    assertEquals(1, count(drawing));
    drawing.box(12, 13, 115, 125, 20, 24, RegionKind.INTRARETINAL_FLUID);
    assertEquals(2, count(drawing), "touching from frame to frame is not overlapping");
    drawing.box(20, 21, 100, 101, 30, 34, RegionKind.INTRARETINAL_FLUID);
    assertEquals(2, count(drawing), "0.0015 mm2 is too small to be counted");
  }

  @Test
  void aRegionThatMovesWithTheEyeStaysOne() {
    Drawing drawing = new Drawing(raster());
    drawing.box(10, 11, 100, 110, 20, 28, RegionKind.INTRARETINAL_FLUID);
    drawing.box(11, 12, 130, 140, 20, 28, RegionKind.INTRARETINAL_FLUID);
    assertEquals(2, count(drawing));
    drawing.lower(11, 30);
    assertEquals(1, count(drawing));
  }

  @Test
  void framesScannedToAndFroGiveOneRegion() {
    List<FundusPoint> starts = new ArrayList<>();
    List<FundusPoint> ends = new ArrayList<>();
    for (int f = 0; f < 32; f++) {
      double side = f % 2 == 0 ? -3.1 : 3.1;
      double y = f * 0.2 - 3.1;
      starts.add(MIDDLE.plus(new FundusPoint(side, y)));
      ends.add(MIDDLE.plus(new FundusPoint(-side, y)));
    }
    Drawing drawing = new Drawing(ScanPath.ofLines(starts, ends, 63, raster().frame()));
    for (int f = 10; f < 15; f++) {
      int from = f % 2 == 0 ? 20 : 63 - 28;
      drawing.box(f, f + 1, 100, 120, from, from + 8, RegionKind.INTRARETINAL_FLUID);
    }
    assertEquals(1, count(drawing));
    MeasuredRegion whole = measured(drawing.table(RegionKind.INTRARETINAL_FLUID).whole());
    assertEquals(5 * 0.2 * 8 * 0.1 * 20 * AXIAL_MM * 1000, whole.volumeNl(), 1e-9);
  }

  /**
   * A disc of radius 1 mm and 50 px under 24 radial frames: a polygon of 48 corners, closed form.
   */
  @Test
  void radialFramesWeighTheirAscansByTheRoomBetweenThem() {
    ScanPath path = Paths.radial(24, 301, 1.5, MIDDLE);
    Drawing drawing = new Drawing(path);
    // A-scans 0.01 mm apart: 99 to either side of the hub, and half a step.
    drawing.box(0, 24, 100, 150, 51, 250, RegionKind.SUBRETINAL_FLUID);
    RegionTable table = drawing.table(RegionKind.SUBRETINAL_FLUID);
    double disc = 24 * Math.sin(2 * Math.PI / 48) * 0.995 * 0.995;
    MeasuredRegion whole = measured(table.whole());
    assertEquals(disc, whole.areaMm2(), 0.0005 * disc);
    assertEquals(disc * 50 * AXIAL_MM * 1000, whole.volumeNl(), 0.0005 * disc * 200);
    assertEquals(1, table.found().orElseThrow().regions());
    MeasuredRegion centre = measured(table.place("centre").orElseThrow());
    assertEquals(Math.PI / 4, centre.areaMm2(), 1e-3);
  }

  @Test
  void aFrameNotLookedAtIsBridgedAndManyRefuseTheNumber() {
    Drawing drawing = new Drawing(raster());
    drawing.box(10, 15, 100, 120, 20, 28, RegionKind.SUBRETINAL_FLUID);
    drawing.skip(12, 13);
    MeasuredRegion whole = measured(drawing.table(RegionKind.SUBRETINAL_FLUID).whole());
    assertEquals(5 * 0.2 * 8 * 0.1 * 20 * AXIAL_MM * 1000, whole.volumeNl(), 1e-9);

    drawing.skip(18, 32);
    RegionTable table = drawing.table(RegionKind.SUBRETINAL_FLUID);
    UnmeasuredRegion refused = assertInstanceOf(UnmeasuredRegion.class, table.whole());
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, refused.reason());
    assertEquals(17.0 / 31, refused.coveredFraction(), 1e-9);
    assertEquals(Optional.of(true), refused.present(), "what was seen is there");
    assertEquals(OptionalDouble.empty(), refused.maxHeightUm());
    assertTrue(table.found().isEmpty());
    RegionResult outer = table.place("outer-inferior").orElseThrow();
    assertEquals(Optional.empty(), outer.present(), "nobody looked, nobody can say no");
    RegionResult total = table.place(SectorGrid.TOTAL).orElseThrow();
    assertEquals(
        NotMeasurable.Reason.INCOMPLETE_GRID,
        assertInstanceOf(UnmeasuredRegion.class, total).reason());
  }

  @Test
  void anAscanWithoutRetinaWasNotLookedAt() {
    Drawing drawing = new Drawing(raster());
    drawing.loseMembrane(0, 32, 0, 9);
    UnmeasuredRegion refused =
        assertInstanceOf(
            UnmeasuredRegion.class, drawing.table(RegionKind.SUBRETINAL_FLUID).whole());
    assertEquals(53.0 / 62, refused.coveredFraction(), 1e-9);
  }

  @Test
  void aLineHasASectionAndAHeightButNoVolume() {
    ScanPath line = Paths.raster(new double[] {0}, 121, 6, 30, MIDDLE);
    Drawing drawing = new Drawing(line);
    drawing.box(0, 1, 100, 140, 50, 70, RegionKind.RPE_ELEVATION);
    RegionTable table = drawing.table(RegionKind.RPE_ELEVATION);
    UnmeasuredRegion whole = assertInstanceOf(UnmeasuredRegion.class, table.whole());
    assertEquals(NotMeasurable.Reason.SPANS_NO_AREA, whole.reason());
    assertEquals(Optional.of(true), whole.present());
    assertEquals(40 * Scans.MICROMETRES_PER_PIXEL, whole.maxHeightUm().orElseThrow(), 1e-9);
    RegionTable.Found found = table.found().orElseThrow();
    assertEquals(20 * 0.05 * 40 * AXIAL_MM, found.largestSection().orElseThrow().areaMm2(), 1e-12);
    assertEquals(1, found.regions());
    assertEquals(List.of(), table.sectors());
    assertEquals(Optional.empty(), table.grid());
  }

  @Test
  void anUnknownEyeHasAVolumeAndNoSectors() {
    Drawing drawing = new Drawing(raster(), Optional.empty());
    drawing.box(10, 15, 100, 120, 20, 28, RegionKind.SUBRETINAL_FLUID);
    RegionTable table = drawing.table(RegionKind.SUBRETINAL_FLUID);
    assertTrue(measured(table.whole()).volumeNl() > 60);
    assertEquals(List.of(), table.sectors());
  }

  @Test
  void kindsNobodyLookedForHaveNoTable() {
    ScanPath path = raster();
    OctScan scan = Scans.scan(path, Optional.of(Laterality.RIGHT));
    RegionScene scene =
        new RegionScene(
            scan,
            Optional.of(path),
            Optional.of(Scans.pit(MIDDLE.xMm(), MIDDLE.yMm())),
            Scans.boundaries(path, (x, y) -> 300),
            RegionLabels.none(scan.size()));
    assertEquals(List.of(), TABULATOR.tabulate(scene, EtdrsGrids.ETDRS_1_3_6, LATTICE));
  }

  private static int count(Drawing drawing) {
    return drawing.table(RegionKind.INTRARETINAL_FLUID).found().orElseThrow().regions();
  }

  private static MeasuredRegion measured(RegionResult result) {
    return assertInstanceOf(MeasuredRegion.class, result);
  }

  /** Labels drawn by hand over a flat retina. */
  private static final class Drawing {
    private final ScanPath path;
    private final OctScan scan;
    private final byte[][] frames;
    private final boolean[] skipped;
    private final float[] membrane;

    Drawing(ScanPath path) {
      this(path, Optional.of(Laterality.RIGHT));
    }

    Drawing(ScanPath path, Optional<Laterality> laterality) {
      this.path = path;
      this.scan = Scans.scan(path, laterality);
      this.frames = new byte[path.frames()][scan.size().framePixels()];
      this.skipped = new boolean[path.frames()];
      this.membrane = new float[path.frames() * path.ascans()];
      Arrays.fill(membrane, 300);
    }

    void box(int f0, int f1, int d0, int d1, int a0, int a1, RegionKind kind) {
      for (int f = f0; f < f1; f++) {
        for (int d = d0; d < d1; d++) {
          Arrays.fill(frames[f], d * path.ascans() + a0, d * path.ascans() + a1, kind.label());
        }
      }
    }

    void ellipsoid(
        double xMm, double yMm, int depth, double a, double b, double c, RegionKind kind) {
      for (int f = 0; f < path.frames(); f++) {
        for (int j = 0; j < path.ascans(); j++) {
          FundusPoint at = path.point(f, j).minus(MIDDLE);
          double u = (at.xMm() - xMm) / a;
          double v = (at.yMm() - yMm) / b;
          for (int d = 0; d < scan.size().depths(); d++) {
            double w = (d - depth) * AXIAL_MM / c;
            if (u * u + v * v + w * w <= 1) {
              frames[f][d * path.ascans() + j] = kind.label();
            }
          }
        }
      }
    }

    void skip(int f0, int f1) {
      Arrays.fill(skipped, f0, f1, true);
    }

    void lower(int frame, int pixels) {
      for (int a = 0; a < path.ascans(); a++) {
        membrane[frame * path.ascans() + a] += pixels;
      }
    }

    void loseMembrane(int f0, int f1, int a0, int a1) {
      for (int f = f0; f < f1; f++) {
        Arrays.fill(membrane, f * path.ascans() + a0, f * path.ascans() + a1, Float.NaN);
      }
    }

    RegionTable table(RegionKind kind) {
      RegionLabels.Builder labels =
          RegionLabels.builder(scan.size(), EnumSet.allOf(RegionKind.class));
      for (int f = 0; f < frames.length; f++) {
        if (!skipped[f]) {
          labels.set(f, frames[f]);
        }
      }
      boolean gridded = path.frames() > 1 && scan.laterality().isPresent();
      RegionScene scene =
          new RegionScene(
              scan,
              Optional.of(path),
              gridded ? Optional.of(centre()) : Optional.empty(),
              boundaries(),
              labels.build());
      return TABULATOR.tabulate(scene, EtdrsGrids.ETDRS_1_3_6, LATTICE).stream()
          .filter(table -> table.kind() == kind)
          .findFirst()
          .orElseThrow();
    }

    private Landmark centre() {
      double x = path.middle().xMm();
      return Scans.pit(x, MIDDLE.yMm());
    }

    private BoundarySet boundaries() {
      float[] top = new float[membrane.length];
      float[] sure = new float[membrane.length];
      Arrays.fill(top, 60);
      Arrays.fill(sure, 1);
      for (int i = 0; i < top.length; i++) {
        top[i] = Float.isNaN(membrane[i]) ? Float.NaN : 60;
      }
      Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
      surfaces.put(Boundary.ILM, new BoundarySurface(path.frames(), path.ascans(), top, sure));
      surfaces.put(Boundary.BM, new BoundarySurface(path.frames(), path.ascans(), membrane, sure));
      return new BoundarySet(surfaces);
    }
  }
}

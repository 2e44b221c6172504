package org.isopach.analysis.testing;

import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;

/** Invented scans, boundaries and maps with known thickness. */
public final class Scans {
  /** µm per depth pixel of every scan made here. */
  public static final double MICROMETRES_PER_PIXEL = 3.87;

  private static final double INNER_DEPTH_PX = 64;
  private static final SourceDocument DOCUMENT = new SourceDocument("test", "0".repeat(64));

  private Scans() {}

  /** Returns the identity of an object of patient TSE-0001. */
  public static ScanIdentity identity(String sopUid) {
    return identity("TSE-0001", sopUid, "2026-03-02T23:50:00");
  }

  /** Returns an identity; an empty time is unknown. */
  public static ScanIdentity identity(String patientId, String sopUid, String acquired) {
    Optional<LocalDateTime> time =
        acquired.isEmpty() ? Optional.empty() : Optional.of(LocalDateTime.parse(acquired));
    return new ScanIdentity(patientId, "2.25.10", "2.25.11", sopUid, time);
  }

  /** Returns a scan along a path; its frames cannot be read. */
  public static OctScan scan(ScanPath path, Optional<Laterality> laterality) {
    return new OctScan(
        identity("2.25.12"),
        DOCUMENT,
        laterality,
        new ScanSize(path.frames(), path.ascans(), 496),
        AxialScale.ofMicrometresPerPixel(MICROMETRES_PER_PIXEL),
        Optional.of(path),
        Optional.empty(),
        Optional.empty(),
        new GreyRange(0, 255),
        (frame, into) -> {
          throw new UnsupportedOperationException("no pixels here");
        });
  }

  /** Returns ILM and BM with the surface's thickness at every A-scan; NaN leaves BM out. */
  public static BoundarySet boundaries(ScanPath path, Surface surface) {
    float[] depths = new float[path.frames() * path.ascans()];
    for (int i = 0; i < depths.length; i++) {
      FundusPoint at = path.point(i / path.ascans(), i % path.ascans());
      depths[i] =
          (float)
              (INNER_DEPTH_PX + surface.micrometres(at.xMm(), at.yMm()) / MICROMETRES_PER_PIXEL);
    }
    return boundaries(path, depths, filled(depths.length, 1));
  }

  /** Returns a flat ILM and a BM of given depths and confidences. */
  public static BoundarySet boundaries(ScanPath path, float[] outerPx, float[] confidence) {
    int points = outerPx.length;
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    surfaces.put(
        Boundary.ILM,
        new BoundarySurface(
            path.frames(),
            path.ascans(),
            filled(points, (float) INNER_DEPTH_PX),
            filled(points, 1)));
    surfaces.put(
        Boundary.BM, new BoundarySurface(path.frames(), path.ascans(), outerPx, confidence));
    return new BoundarySet(surfaces);
  }

  /** Returns a map of the whole retina with a value at each cell's centre. */
  public static ThicknessMap map(MapLattice lattice, Laterality laterality, Surface surface) {
    return map(lattice, laterality, identity("2.25.12"), surface);
  }

  /** Returns a map of the whole retina of one object. */
  public static ThicknessMap map(
      MapLattice lattice, Laterality laterality, ScanIdentity identity, Surface surface) {
    float[] values = new float[lattice.cells()];
    for (int i = 0; i < values.length; i++) {
      values[i] =
          (float)
              surface.micrometres(
                  lattice.xMm(i % lattice.columns()), lattice.yMm(i / lattice.columns()));
    }
    return new ThicknessMap(
        Layer.ILM_BM, laterality, lattice, pit(0, 0), identity, DOCUMENT, values);
  }

  /** Returns the map of the other eye: columns in reverse order, laterality exchanged. */
  public static ThicknessMap mirrored(ThicknessMap map) {
    MapLattice lattice = map.lattice();
    float[] values = new float[lattice.cells()];
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < lattice.columns(); column++) {
        values[row * lattice.columns() + column] =
            map.micrometres(row, lattice.columns() - 1 - column);
      }
    }
    return new ThicknessMap(
        map.layer(),
        map.laterality().other(),
        lattice,
        map.centre(),
        map.scan(),
        map.document(),
        values);
  }

  /** Returns a foveal pit at a place in mm. */
  public static Landmark pit(double xMm, double yMm) {
    return new Landmark(new FundusPoint(xMm, yMm), Landmark.Source.FOVEAL_PIT);
  }

  private static float[] filled(int length, float value) {
    float[] array = new float[length];
    Arrays.fill(array, value);
    return array;
  }
}

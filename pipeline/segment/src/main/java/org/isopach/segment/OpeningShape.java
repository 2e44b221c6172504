package org.isopach.segment;

import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.HeightMap;

/**
 * An opening of Bruch's membrane and the ILM over it, in a scan laid out as a right eye; arrays are
 * shared and not changed once made.
 */
final class OpeningShape {
  private final FundusPoint about;
  private final double[] radiusMm;
  private final double[] heightUm;
  private final boolean[] seen;
  private final MapLattice lattice;
  private final float[] innerUm;

  /**
   * Makes a shape.
   *
   * @param about what radii and lattice are counted from
   * @param radiusMm in the directions of {@link DiscOpening}
   * @param heightUm of the membrane's end
   * @param seen whether the edge was seen there
   * @param lattice of the inner surface
   * @param innerUm height of the inner surface, NaN where there is none
   */
  OpeningShape(
      FundusPoint about,
      double[] radiusMm,
      double[] heightUm,
      boolean[] seen,
      MapLattice lattice,
      float[] innerUm) {
    this.about = about;
    this.radiusMm = radiusMm;
    this.heightUm = heightUm;
    this.seen = seen;
    this.lattice = lattice;
    this.innerUm = innerUm;
  }

  /** Returns the opening as that of an eye, laid back when it is a left one. */
  DiscOpening opening(Laterality eye) {
    return DiscOpening.of(place(eye), eye, radiusMm, heightUm, seen);
  }

  /** Returns the inner surface, laid back when the eye is a left one. */
  HeightMap innerSurface(Laterality eye) {
    if (eye == Laterality.RIGHT) {
      return new HeightMap(lattice, place(eye), innerUm);
    }
    float[] mirrored = new float[innerUm.length];
    int columns = lattice.columns();
    for (int i = 0; i < mirrored.length; i++) {
      mirrored[i] = innerUm[i - i % columns + columns - 1 - i % columns];
    }
    return new HeightMap(lattice, place(eye), mirrored);
  }

  private FundusPoint place(Laterality eye) {
    return eye == Laterality.RIGHT ? about : new FundusPoint(-about.xMm(), about.yMm());
  }
}

package org.isopach.align;

/** A chequerboard on the fundus, by which a picture is parted in two halves that cover it alike. */
final class Chequers {
  private static final double FIELD_MM = 0.6;

  private Chequers() {}

  /** Returns 0 on black fields, 1 on white ones. */
  static int parity(double xMm, double yMm) {
    return Math.floorMod((int) Math.floor(xMm / FIELD_MM) + (int) Math.floor(yMm / FIELD_MM), 2);
  }
}

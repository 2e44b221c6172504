package org.isopach.analysis.map;

/** Takes the quadrilaterals between neighbouring frames, one after another. */
interface QuadTaker {
  /** Sets a corner, 0 to 3 in the order round the quadrilateral. */
  void corner(int index, double xMm, double yMm, double value);

  /** Takes the quadrilateral of the four corners set. */
  void draw();
}

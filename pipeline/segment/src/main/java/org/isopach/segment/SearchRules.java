package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;

/**
 * How far paths may move from column to column of the tissue maps, and what a move costs.
 *
 * @param maxStep most rows a boundary moves in one column, along the course of the retina
 * @param stiffness cost of a move by one row
 * @param innerMaxStep most rows that the inner surface moves, which may fall into a cup
 * @param innerStiffness its cost
 * @param firstMaxStep most rows in the first search, which follows the frame's own axes
 * @param firstStiffness its cost
 */
record SearchRules(
    int maxStep,
    float stiffness,
    int innerMaxStep,
    float innerStiffness,
    int firstMaxStep,
    float firstStiffness) {
  /** For the macula: slopes of up to about 56 degrees, in true proportions, of the whole retina. */
  static final SearchRules MACULA = new SearchRules(5, 0.10f, 5, 0.10f, 9, 0.04f);

  /** For the optic disc: walls of the cup of up to about 75 degrees. */
  static final SearchRules NERVE = new SearchRules(5, 0.10f, 24, 0.01f, 24, 0.01f);

  int maxStep(Boundary boundary) {
    return boundary == Boundary.ILM ? innerMaxStep : maxStep;
  }

  float stiffness(Boundary boundary) {
    return boundary == Boundary.ILM ? innerStiffness : stiffness;
  }
}

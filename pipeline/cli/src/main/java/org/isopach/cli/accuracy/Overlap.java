package org.isopach.cli.accuracy;

/** How well two sets of voxels agree (Dice, Ecology 1945;26:297; from memory). */
final class Overlap {
  private long expected;
  private long found;
  private long both;

  /** Adds a voxel. */
  void add(boolean isExpected, boolean isFound) {
    expected += isExpected ? 1 : 0;
    found += isFound ? 1 : 0;
    both += isExpected && isFound ? 1 : 0;
  }

  /** Returns the number of voxels that should be there. */
  long expected() {
    return expected;
  }

  /** Returns the number of voxels that were found. */
  long found() {
    return found;
  }

  /** Returns twice the common part by the sum of both, from 0 to 1; NaN when both are empty. */
  double dice() {
    return 2.0 * both / (expected + found);
  }
}

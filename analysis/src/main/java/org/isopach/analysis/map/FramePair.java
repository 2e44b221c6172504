package org.isopach.analysis.map;

/**
 * Two frames that lie side by side on the fundus, and the way to read each so that equal indexes
 * lie opposite.
 *
 * @param first index of one frame
 * @param firstReversed whether its A-scans are read from last to first
 * @param second index of the other frame
 * @param secondReversed whether its A-scans are read from last to first
 */
public record FramePair(int first, boolean firstReversed, int second, boolean secondReversed) {
  /** Returns the A-scan of the second frame that lies opposite one of the first. */
  public int opposite(int ascan, int ascans) {
    return firstReversed == secondReversed ? ascan : ascans - 1 - ascan;
  }
}

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
record FramePair(int first, boolean firstReversed, int second, boolean secondReversed) {}

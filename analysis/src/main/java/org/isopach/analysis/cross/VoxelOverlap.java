package org.isopach.analysis.cross;

import java.util.OptionalDouble;

/**
 * How far two segmentations of one scan coincide, in voxels of the frames that were looked at here.
 *
 * @param theirs number of voxels of theirs
 * @param ours number of voxels of ours
 * @param both number of voxels of both
 */
public record VoxelOverlap(long theirs, long ours, long both) {
  public VoxelOverlap {
    if (both < 0 || both > theirs || both > ours) {
      throw new IllegalArgumentException(both + " of " + theirs + " and " + ours + " voxels");
    }
  }

  /**
   * Returns twice the common voxels by the sum of both, from 0 to 1 (Dice, Ecology 1945;26:297,
   * from memory); empty when neither has any.
   */
  public OptionalDouble dice() {
    return theirs + ours == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(2.0 * both / (theirs + ours));
  }
}

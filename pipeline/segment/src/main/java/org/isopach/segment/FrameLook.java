package org.isopach.segment;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a look at one frame and its boundaries brought, A-scan by A-scan. Arrays are shared and not
 * changed once made.
 */
final class FrameLook {
  private final boolean lowSignal;
  private final Optional<boolean[]> cutOff;
  private final Optional<boolean[]> folded;

  FrameLook(boolean lowSignal, Optional<boolean[]> cutOff, Optional<boolean[]> folded) {
    this.lowSignal = lowSignal;
    this.cutOff = cutOff;
    this.folded = folded;
  }

  /** Returns whether the signal is too near the noise for any depth. */
  boolean lowSignal() {
    return lowSignal;
  }

  /** Returns whether the whole retina is in the frame and nothing lies over it. */
  boolean whole() {
    return !lowSignal && share(cutOff).orElse(1) == 0 && share(folded).orElse(0) == 0;
  }

  /** Returns whether an A-scan may keep its depths. */
  boolean keeps(int ascan) {
    return !lowSignal && !folded.map(flags -> flags[ascan]).orElse(false);
  }

  /** Returns whether every A-scan may keep its depths. */
  boolean keepsAll() {
    return !lowSignal && share(folded).orElse(0) == 0;
  }

  /** Returns the share of A-scans whose retina leaves the frame; empty when not looked at. */
  OptionalDouble cutOff() {
    return share(cutOff);
  }

  /** Returns the share of A-scans that show a folded image; empty when not looked at. */
  OptionalDouble folded() {
    return share(folded);
  }

  /** Returns the same without A-scans that were added on either side of the frame. */
  FrameLook without(int spare) {
    return new FrameLook(
        lowSignal, cutOff.map(flags -> cut(flags, spare)), folded.map(flags -> cut(flags, spare)));
  }

  private static boolean[] cut(boolean[] flags, int spare) {
    return Arrays.copyOfRange(flags, spare, flags.length - spare);
  }

  private static OptionalDouble share(Optional<boolean[]> flags) {
    if (flags.isEmpty()) {
      return OptionalDouble.empty();
    }
    int n = 0;
    for (boolean flag : flags.get()) {
      n += flag ? 1 : 0;
    }
    return OptionalDouble.of((double) n / flags.get().length);
  }
}

package org.isopach.cli.accuracy.nerve;

import java.util.List;
import java.util.stream.LongStream;

/**
 * Which eyes are measured.
 *
 * @param from the first seed
 * @param count how many seeds there are
 * @param quick whether only a few of them are wanted
 */
record NerveSeeds(long from, int count, boolean quick) {
  private static final int FEW = 3;
  private static final long APART = 10_000;

  /** Returns the first so many seeds, or as many as there are, or a few. */
  List<Long> first(int wanted) {
    return range(from, Math.min(wanted, count));
  }

  /** Returns so many seeds, or a few, of another range; ranges of different numbers are apart. */
  List<Long> apart(int number, int wanted) {
    return range(from + number * APART, wanted);
  }

  private List<Long> range(long start, int wanted) {
    int taken = quick ? Math.min(FEW, wanted) : wanted;
    return LongStream.range(start, start + taken).boxed().toList();
  }

  /** Returns the seeds in words. */
  static String words(List<Long> seeds) {
    return seeds.size() + " eyes, seeds " + seeds.get(0) + " to " + seeds.get(seeds.size() - 1);
  }
}

package org.isopach.dicom.deidentify;

import java.util.EnumMap;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** How often what was done with which attribute; no value. Private attributes count as one. */
public final class Tally {
  /** Stands for all private attributes: their tags could be anything. */
  public static final int PRIVATE = 0xffffffff;

  private final SortedMap<Integer, Map<Action, Integer>> counts =
      new TreeMap<>(Integer::compareUnsigned);

  void count(int tag, Action action) {
    int key = (tag >>> 16) % 2 == 1 ? PRIVATE : tag;
    counts
        .computeIfAbsent(key, ignored -> new EnumMap<>(Action.class))
        .merge(action, 1, Integer::sum);
  }

  void add(Tally other) {
    other.counts.forEach(
        (tag, actions) ->
            actions.forEach(
                (action, n) ->
                    counts
                        .computeIfAbsent(tag, ignored -> new EnumMap<>(Action.class))
                        .merge(action, n, Integer::sum)));
  }

  /** Returns the counts by tag, in the order of tags. */
  public SortedMap<Integer, Map<Action, Integer>> counts() {
    return counts;
  }
}

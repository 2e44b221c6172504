package org.isopach.cli.accuracy;

import java.util.List;
import java.util.Objects;

/**
 * The errors of several eyes under one condition.
 *
 * @param condition the condition
 * @param scores one for each eye
 */
record ConditionScore(Condition condition, List<ScanScore> scores) {
  ConditionScore {
    Objects.requireNonNull(condition, "condition");
    scores = List.copyOf(scores);
  }
}

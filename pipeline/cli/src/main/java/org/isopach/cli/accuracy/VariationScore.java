package org.isopach.cli.accuracy;

import java.util.List;
import java.util.Objects;

/**
 * The errors of several eyes under one variation.
 *
 * @param variation what was changed
 * @param scores one for each eye
 */
record VariationScore(Variation variation, List<ScanScore> scores) {
  VariationScore {
    Objects.requireNonNull(variation, "variation");
    scores = List.copyOf(scores);
  }
}

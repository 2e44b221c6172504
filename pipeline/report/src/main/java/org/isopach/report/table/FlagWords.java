package org.isopach.report.table;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.FindingKind;

/** Kinds of findings as tables name them. */
final class FlagWords {
  private FlagWords() {}

  /** Returns each kind once, in small letters with hyphens, separated by blanks. */
  static String of(List<FindingKind> kinds) {
    return kinds.stream()
        .map(kind -> kind.name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .distinct()
        .collect(Collectors.joining(" "));
  }
}

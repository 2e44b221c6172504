package org.isopach.report.table;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.FindingKind;

/** Kinds of findings as tables name them, and what is said of one in the same words everywhere. */
public final class FlagWords {
  /** Begins what is said with CIRCLE_NOT_CHECKED. */
  public static final String CENTRING_NOT_CHECKED =
      "whether the circle is centred on the disc was not checked";

  private FlagWords() {}

  /** Returns each kind once, in small letters with hyphens, separated by blanks. */
  static String of(List<FindingKind> kinds) {
    return kinds.stream()
        .map(kind -> kind.name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .distinct()
        .collect(Collectors.joining(" "));
  }
}

package org.isopach.report;

import java.util.List;

/** What every table, picture and page of ours says about itself. */
public final class Cautions {
  /** The cautions in one line. */
  public static final String LINE =
      "Research use. Not a diagnosis. The clinician decides; local rules apply.";

  private Cautions() {}

  /** Returns the cautions as sentences. */
  public static List<String> sentences() {
    return List.of(
        "Research use.", "Not a diagnosis.", "The clinician decides; local rules apply.");
  }
}

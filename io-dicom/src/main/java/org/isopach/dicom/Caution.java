package org.isopach.dicom;

import java.util.Set;

/** What every object of ours says about itself. */
public final class Caution {
  /** The cautions, where there is room. */
  public static final String LINE =
      "Research use. Not a diagnosis. The clinician decides; local rules apply.";

  /** The same in the 64 characters of a long string (VR LO, DICOM PS3.5, 6.2). */
  public static final String SHORT =
      "Research use. Not a diagnosis. Clinician decides by local rules.";

  /** All wordings, those of objects written by earlier versions of this program too. */
  public static final Set<String> ALL =
      Set.of(
          LINE,
          SHORT,
          "Research use. Not a diagnosis: the clinician decides, and local rules apply.",
          "Visits registered. Research use. Not a diagnosis.",
          "Research use. Not a diagnosis.");

  private Caution() {}
}

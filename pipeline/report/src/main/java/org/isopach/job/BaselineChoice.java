package org.isopach.job;

import java.util.Objects;
import java.util.Optional;

/**
 * Which visit the others are compared with.
 *
 * @param studyUid the visit's study instance UID; empty for each eye's first visit
 * @param noise where the noise of a change is looked for
 */
public record BaselineChoice(Optional<String> studyUid, NoiseChoice noise) {
  /** The word for each eye's first visit. */
  public static final String FIRST_WORD = "first";

  /** Each eye's first visit. */
  public static final BaselineChoice FIRST =
      new BaselineChoice(Optional.empty(), NoiseChoice.USUAL);

  public BaselineChoice {
    Objects.requireNonNull(studyUid, "studyUid");
    Objects.requireNonNull(noise, "noise");
  }

  /** Returns this choice with another place to look for noise. */
  public BaselineChoice withNoise(NoiseChoice other) {
    return new BaselineChoice(studyUid, other);
  }

  /** Returns the choice that {@code first} or a study instance UID stands for. */
  public static BaselineChoice of(String text) {
    return text.equals(FIRST_WORD)
        ? FIRST
        : new BaselineChoice(Optional.of(text), NoiseChoice.USUAL);
  }

  /** Returns {@code first} or the study instance UID. */
  public String word() {
    return studyUid.orElse(FIRST_WORD);
  }
}

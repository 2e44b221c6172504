package org.isopach.report.plot;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.nerve.CircleProfile;

/**
 * What a plot of a nerve fibre profile shows.
 *
 * @param title whose eye, when
 * @param profile the profile itself
 * @param earlier profiles of earlier visits, the latest first; their zero is that of {@code
 *     profile}
 * @param otherEye the other eye's profile of the same visit, likewise; angles of profiles are
 *     anatomical, so that it is mirrored as it is
 * @param bands the range of a reference group, arc by arc; may be empty
 * @param bandWords whose range it is; empty without bands
 * @param notes sentences for the foot
 */
public record ProfileScene(
    String title,
    CircleProfile profile,
    List<Line> earlier,
    Optional<Line> otherEye,
    List<Band> bands,
    String bandWords,
    List<String> notes) {

  /** A profile with its words in the legend. */
  public record Line(String words, CircleProfile profile) {
    public Line {
      Objects.requireNonNull(words, "words");
      Objects.requireNonNull(profile, "profile");
    }
  }

  /**
   * The range of a reference group in an arc.
   *
   * @param fromDegrees where the arc begins, from 0 to below 360
   * @param widthDegrees its width
   * @param lowUm lower end of the range, µm
   * @param highUm upper end, µm
   */
  public record Band(double fromDegrees, double widthDegrees, double lowUm, double highUm) {}

  public ProfileScene {
    Objects.requireNonNull(title, "title");
    Objects.requireNonNull(profile, "profile");
    earlier = List.copyOf(earlier);
    Objects.requireNonNull(otherEye, "otherEye");
    bands = List.copyOf(bands);
    Objects.requireNonNull(bandWords, "bandWords");
    notes = List.copyOf(notes);
  }
}

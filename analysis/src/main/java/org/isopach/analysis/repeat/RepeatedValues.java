package org.isopach.analysis.repeat;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.eye.Eye;

/**
 * One eye's repeats in one sector, of one session.
 *
 * @param eye the eye
 * @param session number of the session in the study, from 1
 * @param repeats the scans with a value, the earliest first; at least two
 */
public record RepeatedValues(Eye eye, int session, List<Repeat> repeats) {
  /**
   * One scan's value.
   *
   * @param sopUid the scan
   * @param um thickness in µm, finite; a later repeat's is the first one's plus the change from it
   * @param alignment by what it was put in place against the first repeat; empty for the first
   */
  public record Repeat(String sopUid, double um, String alignment) {
    public Repeat {
      Objects.requireNonNull(sopUid, "sopUid");
      Objects.requireNonNull(alignment, "alignment");
      if (!Double.isFinite(um)) {
        throw new IllegalArgumentException("a repeat's value must be finite, was " + um);
      }
    }
  }

  public RepeatedValues {
    Objects.requireNonNull(eye, "eye");
    repeats = List.copyOf(repeats);
    if (repeats.size() < 2) {
      throw new IllegalArgumentException("repeats are two or more, were " + repeats.size());
    }
  }

  /** Returns the mean of the first two repeats in µm. */
  public double pairMeanUm() {
    return (repeats.get(0).um() + repeats.get(1).um()) / 2;
  }

  /** Returns the second repeat less the first in µm. */
  public double pairDifferenceUm() {
    return repeats.get(1).um() - repeats.get(0).um();
  }

  double[] all() {
    return repeats.stream().mapToDouble(Repeat::um).toArray();
  }

  double[] pair() {
    return new double[] {repeats.get(0).um(), repeats.get(1).um()};
  }
}

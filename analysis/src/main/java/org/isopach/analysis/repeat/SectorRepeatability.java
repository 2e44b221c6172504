package org.isopach.analysis.repeat;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.stat.BlandAltman;
import org.isopach.analysis.stat.CannotEstimateException;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.IntraclassCorrelation;
import org.isopach.analysis.stat.WithinSubject;

/**
 * The repeatability of one layer in one sector.
 *
 * @param layer the layer
 * @param sector the sector's name, or the grid's total
 * @param sessions what it was reckoned from; may be empty
 * @param within spread of repeats about their session's mean; from 2 eyes on
 * @param agreement of the second repeat less the first; from 3 sessions on
 * @param correlation ICC(2,1) of first and second repeats; from 2 eyes on
 */
public record SectorRepeatability(
    Layer layer,
    String sector,
    List<RepeatedValues> sessions,
    Estimate<WithinSubject> within,
    Estimate<BlandAltman> agreement,
    Estimate<IntraclassCorrelation> correlation) {
  /** With one eye nothing is known of others. Ours. */
  public static final int LEAST_EYES = 2;

  /** The level of all intervals. */
  public static final double LEVEL = ConfidenceInterval.USUAL_LEVEL;

  public SectorRepeatability {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(sector, "sector");
    sessions = List.copyOf(sessions);
    Objects.requireNonNull(within, "within");
    Objects.requireNonNull(agreement, "agreement");
    Objects.requireNonNull(correlation, "correlation");
  }

  /** Reckons the repeatability from all sessions that have two values or more. */
  public static SectorRepeatability of(Layer layer, String sector, List<RepeatedValues> sessions) {
    int eyes = eyes(sessions);
    Estimate<WithinSubject> within;
    Estimate<IntraclassCorrelation> correlation;
    if (eyes < LEAST_EYES) {
      String detail = "needs repeats of at least " + LEAST_EYES + " eyes, found " + eyes;
      within = Estimate.refused(CannotEstimateException.Reason.TOO_FEW, detail);
      correlation = Estimate.refused(CannotEstimateException.Reason.TOO_FEW, detail);
    } else {
      within =
          Estimate.of(
              () -> WithinSubject.of(sessions.stream().map(RepeatedValues::all).toList(), LEVEL));
      double[][] pairs = sessions.stream().map(RepeatedValues::pair).toArray(double[][]::new);
      correlation =
          Estimate.of(
              () ->
                  IntraclassCorrelation.of(
                      IntraclassCorrelation.Model.TWO_WAY_RANDOM, pairs, LEVEL));
    }
    double[] differences =
        sessions.stream().mapToDouble(RepeatedValues::pairDifferenceUm).toArray();
    Estimate<BlandAltman> agreement = Estimate.of(() -> BlandAltman.of(differences, LEVEL));
    return new SectorRepeatability(layer, sector, sessions, within, agreement, correlation);
  }

  /** Returns the number of different eyes. */
  public int eyes() {
    return eyes(sessions);
  }

  /** Returns the number of scans with a value. */
  public int scans() {
    return sessions.stream().mapToInt(session -> session.repeats().size()).sum();
  }

  /** Returns by what repeats were put in place, each way once, in alphabetical order. */
  public List<String> alignments() {
    return sessions.stream()
        .flatMap(session -> session.repeats().stream().skip(1))
        .map(RepeatedValues.Repeat::alignment)
        .distinct()
        .sorted()
        .toList();
  }

  private static int eyes(List<RepeatedValues> sessions) {
    return (int) sessions.stream().map(RepeatedValues::eye).distinct().count();
  }
}

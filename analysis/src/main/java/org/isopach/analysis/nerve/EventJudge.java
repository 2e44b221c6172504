package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.RealDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.nerve.NerveEvent.Judged;
import org.isopach.analysis.nerve.NerveEvent.Unknown;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.FalseDiscovery;

/**
 * Holds the changes of one profile's means between two visits against test–retest noise. The limit
 * of a single place is the coefficient of repeatability, 1.96 √2 Sw (with Student's quantile for
 * 1.96 where Sw rests on few degrees of freedom); places judged together are one family after
 * Benjamini and Hochberg. Definition and sources: docs/measurements.md, "Nerve fibre progression".
 */
public final class EventJudge {
  private static final double LEVEL = ConfidenceInterval.USUAL_LEVEL;

  private EventJudge() {}

  /**
   * Returns one event for each pair, in their order.
   *
   * @param family the places that are asked together, for example the arcs of one scheme; the
   *     global mean, which is asked first of all, should be a family of its own
   */
  public static List<NerveEvent> judge(List<PlacePair> family) {
    List<NerveEvent> events = family.stream().map(EventJudge::alone).toList();
    double[] p =
        events.stream()
            .filter(Judged.class::isInstance)
            .mapToDouble(event -> ((Judged) event).p())
            .toArray();
    double[] adjusted = FalseDiscovery.benjaminiHochberg(p);
    List<NerveEvent> judged = new ArrayList<>();
    int at = 0;
    for (NerveEvent event : events) {
      judged.add(event instanceof Judged one ? with(one, adjusted[at++]) : event);
    }
    return List.copyOf(judged);
  }

  private static NerveEvent alone(PlacePair pair) {
    if (!Double.isFinite(pair.baselineUm()) || !Double.isFinite(pair.followUpUm())) {
      return new Unknown(pair.place(), "not measured at both visits");
    }
    if (pair.noise().isEmpty()) {
      return new Unknown(pair.place(), "no test–retest noise is known here");
    }
    SectorNoise noise = pair.noise().get();
    double sd = Math.sqrt(2) * noise.sdUm();
    if (sd == 0) {
      return new Unknown(pair.place(), "the repeats do not differ, so that they tell no noise");
    }
    double change = pair.followUpUm() - pair.baselineUm();
    RealDistribution error = student(noise.degreesOfFreedom());
    double half = error.inverseCumulativeProbability((1 + LEVEL) / 2) * sd;
    double p = Math.min(1, 2 * error.cumulativeProbability(-Math.abs(change) / sd));
    ConfidenceInterval interval = new ConfidenceInterval(change - half, change + half, LEVEL);
    return new Judged(pair.place(), pair.baselineUm(), pair.followUpUm(), interval, p, p, noise);
  }

  private static Judged with(Judged one, double adjusted) {
    return new Judged(
        one.place(),
        one.baselineUm(),
        one.followUpUm(),
        one.interval(),
        one.p(),
        Math.max(one.p(), adjusted),
        one.noise());
  }

  private static RealDistribution student(double degreesOfFreedom) {
    return Double.isInfinite(degreesOfFreedom)
        ? new NormalDistribution(null, 0, 1)
        : new TDistribution(null, degreesOfFreedom);
  }
}

package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.ArcMean;
import org.isopach.analysis.nerve.ArcResult;
import org.isopach.analysis.nerve.ArcScheme;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.ArcTable;
import org.isopach.analysis.nerve.ArcTabulator;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.fixtures.phantom.NerveTruth;

/**
 * Errors of one profile, found less true, in µm; NaN where there is no value.
 *
 * @param refused whether there is no profile at all
 * @param meanAbsoluteUm over the samples that have a value
 * @param biasUm the same, signed
 * @param coverage share of samples with a value, from 0 to 1
 * @param globalUm of the mean of the whole circle
 * @param quadrantsUm of the quadrants' means, in the order of the scheme
 * @param hoursUm of the clock hours' means
 */
record ProfileScore(
    boolean refused,
    double meanAbsoluteUm,
    double biasUm,
    double coverage,
    double globalUm,
    List<Double> quadrantsUm,
    List<Double> hoursUm) {
  ProfileScore {
    quadrantsUm = List.copyOf(quadrantsUm);
    hoursUm = List.copyOf(hoursUm);
  }

  /** Returns the errors against the truth of the circle that was scanned. */
  static ProfileScore scanned(Optional<CircleProfile> found, NerveTruth truth) {
    return found.isEmpty() ? none() : of(found.get(), truth, found.get().centre());
  }

  /** Returns the errors against the truth of the circle round the opening's true centre. */
  static ProfileScore centred(Optional<CircleProfile> found, NerveTruth truth) {
    return found.isEmpty() ? none() : of(found.get(), truth, truth.centre());
  }

  private static ProfileScore none() {
    return new ProfileScore(
        true,
        Double.NaN,
        Double.NaN,
        0,
        Double.NaN,
        Collections.nCopies(4, Double.NaN),
        Collections.nCopies(12, Double.NaN));
  }

  private static ProfileScore of(CircleProfile found, NerveTruth truth, FundusPoint centre) {
    CircleProfile expected = expected(found, truth.profileUm(centre, found.diameterMm()));
    double sum = 0;
    double size = 0;
    int count = 0;
    for (int i = 0; i < found.samples(); i++) {
      double error = found.thicknessUm(i) - expected.atUm(found.angleDegrees(i));
      if (!Double.isNaN(error)) {
        sum += error;
        size += Math.abs(error);
        count++;
      }
    }
    ArcTable quadrants = ArcTabulator.tabulate(found, ArcSchemes.QUADRANTS);
    ArcTable trueQuadrants = ArcTabulator.tabulate(expected, ArcSchemes.QUADRANTS);
    return new ProfileScore(
        false,
        size / count,
        sum / count,
        found.coveredFraction(),
        mean(quadrants.global()) - mean(trueQuadrants.global()),
        differences(quadrants, trueQuadrants),
        differences(
            ArcTabulator.tabulate(found, ArcSchemes.CLOCK_HOURS),
            ArcTabulator.tabulate(expected, ArcSchemes.CLOCK_HOURS)));
  }

  /** Returns a profile of given values that is like another in all else. */
  static CircleProfile expected(CircleProfile like, double[] um) {
    return new CircleProfile(
        like.scan(),
        like.laterality(),
        like.layer(),
        like.diameterMm(),
        like.centre(),
        like.source(),
        like.zero(),
        um);
  }

  /** Returns the means of the arcs of a scheme in µm, the whole last; NaN for none. */
  static List<Double> meansUm(CircleProfile profile, ArcScheme scheme) {
    ArcTable table = ArcTabulator.tabulate(profile, scheme);
    List<Double> means = new ArrayList<>();
    table.arcs().forEach(arc -> means.add(mean(arc)));
    means.add(mean(table.global()));
    return means;
  }

  /** Returns the mean of an arc in µm, NaN where there is none. */
  static double mean(ArcResult result) {
    return result instanceof ArcMean mean ? mean.meanUm() : Double.NaN;
  }

  private static List<Double> differences(ArcTable found, ArcTable expected) {
    List<Double> errors = new ArrayList<>();
    for (int i = 0; i < found.arcs().size(); i++) {
      errors.add(mean(found.arcs().get(i)) - mean(expected.arcs().get(i)));
    }
    return errors;
  }
}

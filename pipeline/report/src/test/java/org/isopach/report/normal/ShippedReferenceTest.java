package org.isopach.report.normal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.apache.commons.math3.distribution.UniformRealDistribution;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalJudge;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.analysis.normal.NormalPlace.NotPlaced;
import org.isopach.analysis.normal.NormalPlace.Placed;
import org.isopach.analysis.normal.NormalPlace.Reason;
import org.isopach.analysis.normal.NormalRules;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceRow;
import org.isopach.analysis.normal.ReferenceSource;
import org.isopach.analysis.normal.ReferenceTable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The shipped figures against their sources, and what they say of eyes. */
class ShippedReferenceTest {
  private static final Layer RNFL = new Layer(Boundary.ILM, Boundary.RNFL_GCL);
  private static final ReferenceTable TABLE = ReferenceTableFile.shipped();
  private static final NormalJudge JUDGE = new NormalJudge(TABLE, NormalRules.USUAL);

  /**
   * Means and SDs as published: IOVS 2380014, PMC3522848, 10.3969/j.issn.2095-5227.2016.08.011, the
   * abstract of the Beijing Eye Study 2011, IOVS 2349700, IOVS 2380016.
   */
  @ParameterizedTest
  @CsvSource({
    "several-sites,239,global,93.42,9.30",
    "several-sites,239,superior,117.52,15.53",
    "several-sites,239,inferior,122.76,15.69",
    "several-sites,239,nasal,69.03,11.90",
    "several-sites,239,temporal,64.35,11.22",
    "sydney-17,1521,global,99.4,9.6",
    "sydney-17,1521,superior,124.7,15.7",
    "sydney-17,1521,inferior,128.8,17.1",
    "sydney-17,1521,nasal,74.3,12.8",
    "sydney-17,1521,temporal,69.9,11.2",
    "china-3.4,217,global,100.41,9.44",
    "china-3.4,217,superior,120.94,19.81",
    "china-3.4,217,inferior,126.18,17.32",
    "china-3.4,217,nasal,65.55,11.55",
    "china-3.4,217,temporal,89.10,17.26",
    "beijing-2011,1654,superior,126.1,19.1",
    "beijing-2011,1654,inferior,131.4,20.6",
    "beijing-2011,1654,temporal,79.8,12.2",
    "circle-3.45,859,global,102.32,9.16",
    "time-domain-20-82,108,global,104.7,10.8"
  })
  void holdsThePublishedMeans(String group, int n, String sector, double mean, double sd) {
    ReferenceRow row =
        TABLE.only(group).rows().stream()
            .filter(one -> one.place().sector().equals(sector))
            .findFirst()
            .orElseThrow();

    assertEquals(mean, row.meanUm());
    assertEquals(sd, row.sdUm());
    assertEquals(n, row.n());
    assertEquals("ILM-RNFL-GCL", row.place().boundaries());
    assertFalse(row.source().source().isBlank());
  }

  /** Nothing else is in the table than what is checked here, and nothing without its source. */
  @Test
  void holdsNothingElse() {
    assertEquals(20, TABLE.rows().size());
    assertEquals(6, TABLE.ageing().size());
    assertTrue(
        TABLE.rows().stream()
            .map(ReferenceRow::source)
            .allMatch(one -> one.status() == ReferenceSource.Status.READ));
  }

  /** The mean of the circle is that of its four quadrants, to the sources' own rounding. */
  @ParameterizedTest
  @CsvSource({"several-sites,0.01", "sydney-17,0.05", "china-3.4,0.05"})
  void hasMeansOfQuadrantsThatAgreeWithTheWhole(String group, double tolerance) {
    double whole = 0;
    double sum = 0;
    for (ReferenceRow row : TABLE.only(group).rows()) {
      whole = row.place().isGlobal() ? row.meanUm() : whole;
      sum += row.place().isGlobal() ? 0 : row.meanUm();
    }
    assertEquals(whole, sum / 4, tolerance);
  }

  /** µm per year: Celebi 2013, IOVS 2127832; PMC5844564. */
  @ParameterizedTest
  @CsvSource({
    "superior,40,-0.488",
    "inferior,40,-0.575",
    "temporal,40,-0.253",
    "nasal,40,-0.141",
    "global,40,-0.364",
    "global,70,-0.497"
  })
  void expectsThePublishedLossByAge(String sector, double age, double slope) {
    assertEquals(OptionalDouble.of(slope), JUDGE.ageing(place(sector), eye(age)).umPerYear());
  }

  @Test
  void expectsNoLossWhereNoneIsPublished() {
    for (String arc : List.of("superior", "inferior", "temporal", "nasal")) {
      assertTrue(JUDGE.ageing(place(arc), eye(70)).umPerYear().isEmpty(), arc);
    }
    assertTrue(
        TABLE.ageing().stream()
            .allMatch(
                row -> row.scope().deviceClass().isEmpty() && !row.toString().contains("time")),
        "no slope of an instrument of another kind");
    assertTrue(JUDGE.ageing(place("global"), NormalEye.UNKNOWN).umPerYear().isEmpty());
    assertTrue(JUDGE.ageing(place("nasal"), eye(70)).refusal().contains("age 70 years is outside"));
  }

  /** 500 eyes of each group's own distribution fall evenly over its percentiles. */
  @Test
  void spreadsEyesOfEveryGroupEvenly() {
    Random random = new Random(25);
    for (ReferenceRow row : TABLE.rows()) {
      ReferenceTable one = TABLE.only(row.source().referenceId());
      NormalJudge judge = new NormalJudge(one, NormalRules.USUAL);
      double age = row.scope().ages().from().orElse(40) + 0.5;
      double[] percentiles = new double[500];
      for (int k = 0; k < percentiles.length; k++) {
        double value = row.meanUm() + row.sdUm() * random.nextGaussian();
        NormalPlace found =
            judge.place(value, place(row.place().sector()), eye(age), OptionalDouble.empty());
        percentiles[k] = ((Placed) found).percentile();
      }
      double p =
          new KolmogorovSmirnovTest()
              .kolmogorovSmirnovTest(new UniformRealDistribution(null, 0, 100), percentiles);
      // All rows at 5 % together.
      assertTrue(p > 0.05 / TABLE.rows().size(), row.words() + " " + p);
    }
  }

  @Test
  void refusesWhatNothingIsPublishedOf() {
    assertEquals(Reason.SECTOR_UNKNOWN, reason(circle("clock-hours", "hour-6", 3.46)));
    assertEquals(
        Reason.SECTOR_UNKNOWN, reason(circle("six-sectors-symmetric", "superotemporal", 3.46)));
    assertEquals(Reason.DIAMETER_DIFFERS, reason(circle("quadrants", "superior", 4.1)));
    assertEquals(
        Reason.NO_REFERENCE, reason(ReferencePlace.rim("quadrants", "global", "horizontal")));
    assertEquals(Reason.NO_REFERENCE, reason(ReferencePlace.ellipse(RNFL, "ellipse", "global")));
  }

  @Test
  void placesATeenagerAmongTeenagersAndAChildNowhere() {
    Placed teenager = (Placed) at(place("global"), eye(17.4));
    NotPlaced child = (NotPlaced) at(place("global"), eye(9));

    assertEquals("sydney-17", teenager.row().source().referenceId());
    assertEquals(Reason.AGE_OUTSIDE, child.reason());
    assertEquals(
        "several-sites", ((Placed) at(place("global"), eye(40))).row().source().referenceId());
    assertEquals(
        "time-domain-20-82",
        ((Placed)
                new NormalJudge(TABLE.only("time-domain-20-82"), NormalRules.USUAL)
                    .place(95, place("global"), eye(40), OptionalDouble.empty()))
            .row()
            .source()
            .referenceId());
  }

  /**
   * CR = 1.96 √2 Sw: 9.04 µm (10.1371/journal.pone.0144721), 13.3 µm (Korean J Ophthalmol
   * 26(1):32).
   */
  @Test
  void turnsPublishedRepeatabilityIntoNoise() {
    SectorNoise global = PublishedNerveNoise.of("global", "normal").orElseThrow();
    SectorNoise arc = PublishedNerveNoise.of("nasal", "normal").orElseThrow();

    assertEquals(9.04, 1.96 * Math.sqrt(2) * global.sdUm(), 0.005);
    assertEquals(53, global.degreesOfFreedom());
    assertEquals(13.3, 1.96 * Math.sqrt(2) * arc.sdUm(), 0.005);
    assertEquals(75, arc.degreesOfFreedom());
    assertEquals(4.87, PublishedNerveNoise.of("global", "glaucoma-moderate").orElseThrow().sdUm());
    assertEquals(Optional.empty(), PublishedNerveNoise.of("nasal", "glaucoma-early"));
    assertEquals(Optional.empty(), PublishedNerveNoise.of("hour-6", "normal"));
    assertEquals(5, PublishedNerveNoise.populations().size());
  }

  private static ReferencePlace place(String sector) {
    return circle("quadrants", sector, 3.46);
  }

  private static ReferencePlace circle(String scheme, String sector, double diameterMm) {
    return ReferencePlace.circle(RNFL, scheme, sector, diameterMm, ReferencePlace.HORIZONTAL);
  }

  private static NormalEye eye(double age) {
    return NormalEye.UNKNOWN.aged(age);
  }

  private static NormalPlace at(ReferencePlace place, NormalEye eye) {
    return JUDGE.place(95, place, eye, OptionalDouble.empty());
  }

  private static Reason reason(ReferencePlace place) {
    return ((NotPlaced) at(place, eye(40))).reason();
  }
}

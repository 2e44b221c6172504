package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.nerve.ArcMean;
import org.isopach.analysis.nerve.ArcMissing;
import org.isopach.analysis.nerve.ArcResult;
import org.isopach.analysis.nerve.ArcScheme;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.ArcTable;
import org.isopach.analysis.nerve.ArcTabulator;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.GanglionTable;
import org.isopach.analysis.nerve.MidlineDifference;
import org.isopach.analysis.nerve.MidlineMissing;
import org.isopach.analysis.nerve.MidlineResult;
import org.isopach.analysis.nerve.RimProfile;
import org.isopach.analysis.nerve.RimTable;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveValue;

/** Turns what was measured into the values of tables. */
final class NerveValues {
  /** The midline's name as a scheme; its one sector is superior less inferior. */
  static final String MIDLINE = "midline";

  static final String SUPERIOR_LESS_INFERIOR = "superior-inferior";
  static final String DISC = "disc";

  private NerveValues() {}

  /** Returns the mean of the whole circle, then the arcs of every scheme. */
  static List<NerveValue> fibres(CircleProfile profile) {
    List<NerveValue> values = new ArrayList<>();
    for (ArcScheme scheme : ArcSchemes.all()) {
      ArcTable table = ArcTabulator.tabulate(profile, scheme);
      String layer = profile.layer().name();
      addArcs(values, NerveMeasure.FIBRES, layer, scheme, table.arcs(), table.global());
    }
    return values;
  }

  /** Returns the mean of the whole rim, then the arcs of every scheme. */
  static List<NerveValue> rim(RimProfile rim) {
    List<NerveValue> values = new ArrayList<>();
    for (ArcScheme scheme : ArcSchemes.all()) {
      RimTable table = ArcTabulator.tabulate(rim, scheme);
      addArcs(
          values, NerveMeasure.RIM_WIDTH, ReferencePlace.RIM, scheme, table.arcs(), table.global());
    }
    return values;
  }

  private static void addArcs(
      List<NerveValue> values,
      NerveMeasure measure,
      String layer,
      ArcScheme scheme,
      List<ArcResult> arcs,
      ArcResult global) {
    if (values.isEmpty()) {
      values.add(arc(measure, layer, "", global));
    }
    arcs.forEach(result -> values.add(arc(measure, layer, scheme.name(), result)));
  }

  private static NerveValue arc(
      NerveMeasure measure, String layer, String scheme, ArcResult result) {
    OptionalDouble covered = OptionalDouble.of(result.coveredFraction());
    if (result instanceof ArcMissing missing) {
      String reason = missing.reason().code() + ": " + missing.detail();
      return missing(measure, layer, scheme, result.arc(), covered, reason);
    }
    ArcMean mean = (ArcMean) result;
    return new NerveValue(
        measure,
        layer,
        scheme,
        result.arc(),
        OptionalDouble.of(mean.meanUm()),
        Optional.of(new NerveValue.Spread(mean.sdUm(), mean.minUm(), mean.maxUm())),
        covered,
        "");
  }

  private static NerveValue missing(
      NerveMeasure measure,
      String layer,
      String scheme,
      String sector,
      OptionalDouble covered,
      String reason) {
    return new NerveValue(
        measure, layer, scheme, sector, OptionalDouble.empty(), Optional.empty(), covered, reason);
  }

  /** Returns size and tilt of the opening; the tilt's direction in the angles of a rim. */
  static List<NerveValue> opening(RimProfile rim) {
    DiscOpening opening = rim.opening();
    String layer = "";
    double towards = rim.zero().ofHorizontal(opening.tiltTowardsDegrees());
    return List.of(
        new NerveValue(
            NerveMeasure.OPENING_AREA,
            layer,
            "",
            DISC,
            OptionalDouble.of(opening.areaMm2()),
            Optional.empty(),
            OptionalDouble.of(opening.seenFraction()),
            ""),
        NerveValue.single(NerveMeasure.OPENING_LONGEST, layer, DISC, opening.longestMm()),
        NerveValue.single(NerveMeasure.OPENING_SHORTEST, layer, DISC, opening.shortestMm()),
        NerveValue.single(NerveMeasure.DISC_TILT, layer, DISC, opening.tiltDegrees()),
        NerveValue.single(NerveMeasure.DISC_TILT_TOWARDS, layer, DISC, towards));
  }

  /** Returns annulus, sectors, minimum and differences across the midline. */
  static List<NerveValue> ganglion(GanglionTable table) {
    List<NerveValue> values = new ArrayList<>();
    String layer = table.layer().name();
    String scheme = table.grid().name();
    values.add(sector(NerveMeasure.GANGLION, layer, "", ReferencePlace.GLOBAL, table.annulus()));
    for (SectorResult result : table.sectors()) {
      values.add(sector(NerveMeasure.GANGLION, layer, scheme, result.sector(), result));
    }
    values.add(
        sector(
            NerveMeasure.GANGLION_MINIMUM, layer, scheme, GanglionTable.MINIMUM, table.minimum()));
    values.add(midline(NerveMeasure.GANGLION_ASYMMETRY, layer, table.halves()));
    values.add(midline(NerveMeasure.GANGLION_ASYMMETRY_MIRRORED, layer, table.mirrored()));
    return values;
  }

  private static NerveValue sector(
      NerveMeasure measure, String layer, String scheme, String name, SectorResult result) {
    OptionalDouble covered = OptionalDouble.of(result.coveredFraction());
    if (result instanceof NotMeasurable refused) {
      String reason = refused.reason().code() + ": " + refused.detail();
      return missing(measure, layer, scheme, name, covered, reason);
    }
    Measured measured = (Measured) result;
    return new NerveValue(
        measure,
        layer,
        scheme,
        name,
        OptionalDouble.of(measured.meanUm()),
        Optional.of(new NerveValue.Spread(measured.sdUm(), measured.minUm(), measured.maxUm())),
        covered,
        "");
  }

  private static NerveValue midline(NerveMeasure measure, String layer, MidlineResult result) {
    OptionalDouble covered = OptionalDouble.of(result.coveredFraction());
    if (result instanceof MidlineMissing missing) {
      String reason = missing.code() + ": " + missing.detail();
      return missing(measure, layer, MIDLINE, SUPERIOR_LESS_INFERIOR, covered, reason);
    }
    return new NerveValue(
        measure,
        layer,
        MIDLINE,
        SUPERIOR_LESS_INFERIOR,
        OptionalDouble.of(((MidlineDifference) result).differenceUm()),
        Optional.empty(),
        covered,
        "");
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Stream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.Arc;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.GanglionGrid;
import org.isopach.analysis.nerve.GanglionTabulator;
import org.isopach.analysis.nerve.RimProfile;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalLimits;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.scan.DeviceModel;
import org.isopach.analysis.scan.OctScan;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Measures the scans of one visit of an eye, each in the light of the others. */
final class NerveFinisher {
  private final NerveRequest request;
  private final AxialLengths lengths;
  private final NervePlacer placer;
  private final GanglionTabulator ganglion = new GanglionTabulator();

  NerveFinisher(NerveRequest request, AxialLengths lengths) {
    this.request = request;
    this.lengths = lengths;
    this.placer = new NervePlacer(request.reference());
  }

  /**
   * Returns one result for each scan of a visit, in their order.
   *
   * @param all the scans of all visits of the eye
   * @param said what the run has said of a scan so far, by its location
   */
  List<NerveScan> finish(
      List<NerveSighting> visit, List<NerveSighting> all, Function<String, List<Finding>> said) {
    NervePlaces places = new NervePlaces(visit, all);
    return visit.stream()
        .map(one -> finish(one, places, said.apply(one.scan().document().location())))
        .toList();
  }

  private NerveScan finish(NerveSighting one, NervePlaces places, List<Finding> said) {
    List<Finding> findings = new ArrayList<>();
    String subject = one.scan().document().location();
    OptionalDouble angle = places.foveaDiscDegrees(one);
    AngleZero zero = zero(one, angle, findings);
    Optional<CircleProfile> profile = one.circle().map(c -> c.profile().rotatedTo(zero));
    NormalEye eye = eye(one, places);
    CircleWitness witness = places.witness(one);
    List<Finding> circle =
        one.circle().map(c -> CircleFindings.of(c, witness, subject)).orElse(List.of());
    findings.addAll(circle);
    NervePlacer.Scope scope =
        new NervePlacer.Scope(
            eye,
            zero,
            CircleFindings.barred(circle, witness),
            CircleFindings.ofCentring(circle).map(Finding::detail).toList());
    List<NerveTable> tables = new ArrayList<>();
    if (one.showsNerve()) {
      tables.add(nerve(one, profile.orElseThrow(), angle, scope, CircleFindings.offDisc(circle)));
      NerveFindings.of(tables.get(0), subject).forEach(findings::add);
    }
    if (!one.ganglion().isEmpty()) {
      tables.add(macula(one, angle, scope));
    }
    double resolvedUm = NerveFindings.resolvedUm(one.scan().axial());
    tables.forEach(
        table -> NerveFindings.ofResolution(table, resolvedUm, subject).ifPresent(findings::add));
    NumberFlags flags =
        new NumberFlags(
            Stream.concat(said.stream(), findings.stream()).toList(),
            one.circle().map(CircleSight::bandless).orElse(List.of()),
            zero,
            resolvedUm);
    return new NerveScan(
        one,
        zero,
        profile,
        tables.stream().map(table -> table.mapped(flags::on)).toList(),
        eye,
        limits(profile, scope),
        findings);
  }

  private AngleZero zero(NerveSighting one, OptionalDouble angle, List<Finding> findings) {
    if (!request.alignToFovea() || one.roles().isEmpty()) {
      return AngleZero.HORIZONTAL;
    }
    if (angle.isPresent()) {
      return AngleZero.foveaDiscLine(angle.getAsDouble());
    }
    findings.add(
        new Finding(
            FindingKind.NOT_TURNED_TO_FOVEA,
            one.scan().document().location(),
            "the line from disc to fovea is not known"));
    return AngleZero.HORIZONTAL;
  }

  private NormalEye eye(NerveSighting one, NervePlaces places) {
    OctScan scan = one.scan();
    return new NormalEye(
        optional(scan.ageYears()),
        optional(lengths.lengthMm(scan)),
        places.openingMm2(one),
        scan.device().map(DeviceModel::model),
        Optional.empty());
  }

  private static OptionalDouble optional(Optional<Double> value) {
    return value.isPresent() ? OptionalDouble.of(value.get()) : OptionalDouble.empty();
  }

  private NerveTable nerve(
      NerveSighting one,
      CircleProfile profile,
      OptionalDouble angle,
      NervePlacer.Scope scope,
      Optional<String> off) {
    List<NerveValue> values = new ArrayList<>();
    NerveValues.fibres(profile).stream()
        .map(value -> off.map(value::refused).orElse(value))
        .forEach(value -> values.add(placer.circle(value, profile, scope)));
    one.disc()
        .ifPresent(
            disc -> {
              RimProfile rim = disc.rim().countedFrom(scope.zero());
              NerveValues.rim(rim).forEach(value -> values.add(placer.rim(value, scope)));
              values.addAll(NerveValues.opening(rim));
            });
    addAngle(values, angle);
    NerveRole role = one.roles().get(0);
    return new NerveTable(
        one.scan().identity(),
        one.scan().laterality().orElseThrow(),
        role.code(),
        OptionalDouble.of(profile.diameterMm()),
        scope.zero(),
        Optional.of(profile.centre()),
        one.disc().isPresent() ? "disc-opening" : "circle",
        scope.eye().ageYears(),
        values);
  }

  private NerveTable macula(NerveSighting one, OptionalDouble angle, NervePlacer.Scope scope) {
    List<NerveValue> values = new ArrayList<>();
    for (ThicknessMap map : one.ganglion()) {
      NerveValues.ganglion(ganglion.tabulate(map, GanglionGrid.STANDARD, scope.zero()))
          .forEach(value -> values.add(placer.annulus(value, map.layer(), scope)));
    }
    if (!one.showsNerve()) {
      addAngle(values, angle);
    }
    return new NerveTable(
        one.scan().identity(),
        one.scan().laterality().orElseThrow(),
        NerveRole.MACULA_VOLUME.code(),
        OptionalDouble.empty(),
        scope.zero(),
        Optional.of(one.ganglion().get(0).centre().point()),
        one.ganglion().get(0).centre().source().code(),
        scope.eye().ageYears(),
        values);
  }

  private static void addAngle(List<NerveValue> values, OptionalDouble angle) {
    if (angle.isPresent()) {
      values.add(
          NerveValue.single(
              NerveMeasure.FOVEA_DISC_ANGLE, "", NerveValues.DISC, angle.getAsDouble()));
    }
  }

  /** The distributions of the quadrants, in their order, for the plot. */
  private List<Optional<NormalLimits>> limits(
      Optional<CircleProfile> profile, NervePlacer.Scope scope) {
    if (profile.isEmpty()) {
      return List.of();
    }
    List<Optional<NormalLimits>> limits = new ArrayList<>();
    for (Arc arc : ArcSchemes.QUADRANTS.arcs()) {
      ReferencePlace place =
          NervePlacer.onCircle(profile.get(), ArcSchemes.QUADRANTS.name(), arc.name(), scope);
      limits.add(placer.limits(place, scope));
    }
    return limits;
  }
}

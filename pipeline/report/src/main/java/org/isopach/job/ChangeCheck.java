package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.change.RepeatPair;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.change.VisitChange;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.cross.Differences;
import org.isopach.analysis.cross.FieldResampler;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.dicom.read.PlacedMap;

/**
 * Sets a map of change beside our change of the same two scans: read at the cells of ours, then by
 * our grid and cell by cell.
 */
final class ChangeCheck {
  static final String CELLS = "cells";

  private final ChangePair pair;
  private final CrossLines lines;

  ChangeCheck(ChangePair pair, CrossLines lines) {
    this.pair = pair;
    this.lines = lines;
  }

  List<CrossLine> of(PlacedMap map, LaidVisits visits) {
    Optional<Laterality> eye = pair.followUp().scan().laterality();
    if (map.laterality().isPresent() && !map.laterality().equals(eye)) {
      return refused(map, "it is of the other eye");
    }
    Optional<VisitChange.Compared> ours =
        visits.pairs().stream()
            .map(RepeatPair::compared)
            .filter(one -> one.table().layer().equals(pair.layer()))
            .findFirst();
    if (ours.isEmpty()) {
      String why =
          visits.findings().stream()
              .findFirst()
              .map(Finding::detail)
              .orElse(pair.layer().name() + " was not measured at both visits");
      return refused(map, "no change was given here: " + why);
    }
    Optional<MapPlacer.Placed> placed = place(map, visits.laid().orElseThrow());
    if (placed.isEmpty()) {
      return refused(
          map,
          map.noPlace().isEmpty()
              ? "it does not lie in the coordinates of either of its scans"
              : map.noPlace());
    }
    return compared(map, placed.get(), ours.get(), visits.alignment());
  }

  private List<CrossLine> refused(PlacedMap map, String why) {
    return List.of(lines.refused(line(map, CELLS), why));
  }

  private Pair line(PlacedMap map, String place) {
    return new Pair(map.title(), pair.layer().name(), place, Quantity.CHANGE);
  }

  /** Lays the map where the change was reckoned, from whichever of the two scans it lies in. */
  private Optional<MapPlacer.Placed> place(PlacedMap map, LaidPair laid) {
    VisitAlignment.Aligned aligned = laid.aligned();
    boolean onBaseline = laid.coordinates().equals(laid.baseline());
    Landmark there = onBaseline ? aligned.baseline() : aligned.followUp();
    Optional<MapPlacer.Placed> own = on(laid.coordinates(), there, map);
    if (own.isPresent()) {
      return own;
    }
    if (!onBaseline) {
      return on(laid.baseline(), aligned.baseline(), map);
    }
    FundusTransform transform = aligned.transform().orElseThrow();
    Landmark origin = new Landmark(new FundusPoint(0, 0), there.source());
    return on(laid.followUp(), origin, map)
        .map(
            one ->
                new MapPlacer.Placed(one.place().moved(transform).minus(there.point()), one.way()));
  }

  private static Optional<MapPlacer.Placed> on(MeasuredScan scan, Landmark about, PlacedMap map) {
    return new MapPlacer(scan.scan(), scan.place().map(place -> place.about(about))).place(map);
  }

  private List<CrossLine> compared(
      PlacedMap map, MapPlacer.Placed placed, VisitChange.Compared ours, String alignment) {
    CrossLines laid = lines.placedBy(placed.way());
    ThicknessMap after = ours.map().followUp();
    ThicknessMap theirs =
        new ThicknessMap(
            after.layer(),
            after.laterality(),
            after.lattice(),
            after.centre(),
            after.scan(),
            after.document(),
            FieldResampler.onto(after.lattice(), map.values(), placed.place()));
    SectorTable table =
        new SectorTabulator().tabulate(theirs, ours.table().grid(), LayerMapper.MINIMUM_COVERAGE);
    String remark =
        "change since " + ours.table().baseline().sopUid() + ", ours laid by " + alignment;
    List<CrossLine> all = new ArrayList<>();
    Stream.concat(table.sectors().stream(), Stream.of(table.centrePoint()))
        .forEach(sector -> all.add(sector(laid, map, sector, ours.table(), remark)));
    all.add(laid.places(line(map, CELLS), differences(theirs, ours.map()), remark));
    return all;
  }

  private CrossLine sector(
      CrossLines laid, PlacedMap map, SectorResult theirs, ChangeTable ours, String remark) {
    boolean point = theirs.sector().equals(SectorTabulator.CENTRE_POINT);
    Pair line = line(map, theirs.sector());
    SectorChange here = point ? ours.centrePoint() : ours.sector(theirs.sector()).orElseThrow();
    OptionalDouble their =
        theirs instanceof Measured measured
            ? OptionalDouble.of(measured.meanUm())
            : OptionalDouble.empty();
    OptionalDouble our =
        here instanceof SectorChange.MeasuredChange measured
            ? OptionalDouble.of(measured.changeUm())
            : OptionalDouble.empty();
    if (their.isEmpty()) {
      return laid.refused(line, their, our, MapCheck.gap(theirs));
    }
    if (here instanceof SectorChange.NotMeasurableChange not) {
      return laid.refused(
          line, their, our, "not measured here: " + not.reason().code() + ": " + not.detail());
    }
    return laid.values(
        line,
        their.getAsDouble(),
        our.getAsDouble(),
        OptionalDouble.of(theirs.coveredFraction()),
        remark);
  }

  private static Differences differences(ThicknessMap theirs, DifferenceMap ours) {
    Differences.Collector collector = new Differences.Collector();
    for (int row = 0; row < ours.lattice().rows(); row++) {
      for (int column = 0; column < ours.lattice().columns(); column++) {
        collector.add(theirs.micrometres(row, column), ours.micrometres(row, column));
      }
    }
    return collector.result();
  }
}

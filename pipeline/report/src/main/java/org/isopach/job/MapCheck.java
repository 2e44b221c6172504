package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.cross.Differences;
import org.isopach.analysis.cross.FieldResampler;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.dicom.derive.LayerCode;
import org.isopach.dicom.read.PlacedMap;

/**
 * Sets a map of somebody's beside ours: read at the cells of our map, then by our grid round our
 * centre, and cell by cell. Only maps of one layer by its code are compared.
 */
final class MapCheck {
  private static final String CELLS = "cells";

  private final MeasuredScan scan;
  private final CrossLines lines;
  private final SectorTabulator tabulator;

  MapCheck(MeasuredScan scan, CrossLines lines, SectorTabulator tabulator) {
    this.scan = scan;
    this.lines = lines;
    this.tabulator = tabulator;
  }

  List<CrossLine> of(List<PlacedMap> maps) {
    String uid = scan.scan().identity().sopUid();
    List<CrossLine> all = new ArrayList<>();
    for (PlacedMap map : maps) {
      if (map.sources().isEmpty() || map.sources().contains(uid)) {
        all.addAll(of(map));
      }
    }
    return all;
  }

  private List<CrossLine> of(PlacedMap map) {
    String words = map.title();
    Optional<Laterality> eye = scan.scan().laterality();
    if (map.laterality().isPresent() && eye.isPresent() && !map.laterality().equals(eye)) {
      return List.of(
          lines.refused(
              pair(words, ""),
              "it is of the other eye: "
                  + map.laterality().get().code()
                  + ", the scan is of "
                  + eye.get().code()));
    }
    Optional<Layer> layer = map.quantity().layer();
    if (layer.isEmpty()) {
      return List.of(lines.refused(pair(words, ""), unknown(map)));
    }
    Optional<MappedLayer> ours = scan.layer(layer.get());
    if (ours.isEmpty()) {
      String other = scan.layers().stream().findFirst().map(l -> l.map().layer().name()).orElse("");
      return List.of(
          lines.refused(
              pair(words, other),
              other.isEmpty()
                  ? "no map was made of the scan"
                  : "definitions differ: theirs is "
                      + layer.get().name()
                      + ", which was not measured here, ours is "
                      + other));
    }
    MapPlacer placer = new MapPlacer(scan);
    return placer
        .place(map)
        .map(placed -> compared(map, placed, ours.get(), words))
        .orElseGet(
            () -> List.of(lines.refused(pair(words, layer.get().name()), placer.obstacle(map))));
  }

  private static String unknown(PlacedMap map) {
    String none = "no layer of ours has the definition of this map";
    if (map.definition().isPresent()) {
      return none;
    }
    return map.sources().size() == 2
        ? none + ": it states none; that it is a change between its two scans only a code can say"
        : none + ": it states none";
  }

  private List<CrossLine> compared(
      PlacedMap map, MapPlacer.Placed placed, MappedLayer ours, String words) {
    CrossLines laid = lines.placedBy(placed.way());
    ThicknessMap here = ours.map();
    MapLattice lattice = here.lattice();
    float[] cells = FieldResampler.onto(lattice, map.values(), placed.place());
    ThicknessMap theirs =
        new ThicknessMap(
            here.layer(),
            here.laterality(),
            lattice,
            here.centre(),
            here.scan(),
            here.document(),
            cells);
    SectorTable table =
        tabulator.tabulate(theirs, ours.table().grid(), LayerMapper.MINIMUM_COVERAGE);
    String remark = map.definition().map(LayerCode::leftOpen).orElse("");
    String name = here.layer().name();
    List<CrossLine> all = new ArrayList<>();
    for (SectorResult sector : table.sectors()) {
      Pair pair = new Pair(words, name, sector.sector(), Quantity.THICKNESS);
      all.add(sector(laid, pair, sector, ours.table().sector(sector.sector()), remark));
    }
    Pair point = new Pair(words, name, SectorTabulator.CENTRE_POINT, Quantity.THICKNESS);
    all.add(
        sector(laid, point, table.centrePoint(), Optional.of(ours.table().centrePoint()), remark));
    all.add(laid.places(pair(words, name), differences(theirs, here), remark));
    return all;
  }

  private static CrossLine sector(
      CrossLines laid, Pair pair, SectorResult theirs, Optional<SectorResult> ours, String remark) {
    OptionalDouble their = mean(Optional.of(theirs));
    OptionalDouble our = mean(ours);
    if (their.isEmpty()) {
      return laid.refused(pair, their, our, MapCheck.gap(theirs));
    }
    if (our.isEmpty()) {
      return laid.refused(pair, their, our, GridReportCheck.reason(ours));
    }
    return laid.values(
        pair,
        their.getAsDouble(),
        our.getAsDouble(),
        OptionalDouble.of(theirs.coveredFraction()),
        remark);
  }

  /** Says how much of a sector a map of theirs has values for, where that is too little. */
  static String gap(SectorResult theirs) {
    return theirs.sector().equals(SectorTabulator.CENTRE_POINT)
        ? "their map has no value there"
        : String.format(
            Locale.ROOT,
            "their map has values for %.1f %% of the sector; %.1f %% are needed",
            100 * theirs.coveredFraction(),
            100 * LayerMapper.MINIMUM_COVERAGE);
  }

  private static OptionalDouble mean(Optional<SectorResult> result) {
    return result.orElse(null) instanceof Measured measured
        ? OptionalDouble.of(measured.meanUm())
        : OptionalDouble.empty();
  }

  private static Differences differences(ThicknessMap theirs, ThicknessMap ours) {
    Differences.Collector collector = new Differences.Collector();
    for (int row = 0; row < ours.lattice().rows(); row++) {
      for (int column = 0; column < ours.lattice().columns(); column++) {
        collector.add(theirs.micrometres(row, column), ours.micrometres(row, column));
      }
    }
    return collector.result();
  }

  private static Pair pair(String theirs, String ours) {
    return new Pair(theirs, ours, CELLS, Quantity.THICKNESS);
  }
}

package org.isopach.job;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.TreatmentEvent;
import org.isopach.analysis.series.VisitFluid;
import org.isopach.analysis.series.VisitPoint;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.analysis.series.VisitValue;

/**
 * Gathers one eye's visits into series. Keeps the first measured scan, which the others are put on,
 * and of the others numbers only.
 */
final class SeriesGatherer {
  private final Eye eye;
  private final ScanComparer comparer;
  private final List<Entry> entries = new ArrayList<>();
  private final List<VisitFluid> fluid = new ArrayList<>();
  private final Map<String, List<List<SectorResult>>> numbers = new LinkedHashMap<>();
  private Optional<MeasuredScan> first = Optional.empty();

  /** What a visit gave: changes by layer, or why it gave none. */
  private record Entry(
      ScanIdentity scan,
      LocalDate date,
      Map<Layer, ChangeTable> changes,
      String alignment,
      String reason) {}

  SeriesGatherer(Eye eye, ScanComparer comparer) {
    this.eye = eye;
    this.comparer = comparer;
  }

  /** Returns the object whose very numbers a scan gives, as copies of one scan do, or empty. */
  Optional<String> copied(MeasuredScan scan) {
    List<List<SectorResult>> own = numbers(scan);
    return numbers.entrySet().stream()
        .filter(entry -> entry.getValue().equals(own))
        .map(Map.Entry::getKey)
        .findFirst();
  }

  /** Takes the scan of the next visit; returns what there is to say. */
  List<Finding> next(MeasuredScan scan) throws InterruptedException {
    ScanIdentity identity = scan.scan().identity();
    LocalDate date = identity.acquired().orElseThrow().toLocalDate();
    numbers.put(identity.sopUid(), numbers(scan));
    fluid.add(VisitFluid.of(identity, date, scan.regions()));
    if (first.isEmpty()) {
      first = Optional.of(scan.withoutLabels());
      entries.add(new Entry(identity, date, Map.of(), VisitPoint.FIRST, ""));
      return List.of();
    }
    ScanChange change = comparer.compare(first.get(), scan.withoutLabels());
    Map<Layer, ChangeTable> changes = new LinkedHashMap<>();
    String alignment = "";
    for (ScanChange.LayerChange layer : change.layers()) {
      changes.put(layer.change().table().layer(), layer.change().table());
      alignment = layer.change().alignment();
    }
    String reason =
        change.findings().isEmpty()
            ? "the layer was not found at this visit"
            : change.findings().get(change.findings().size() - 1).detail();
    entries.add(new Entry(identity, date, changes, alignment, reason));
    return change.findings();
  }

  /** Takes a visit of which no scan could be mapped. */
  void missed(ScanIdentity scan, String reason) {
    LocalDate date = scan.acquired().orElseThrow().toLocalDate();
    entries.add(new Entry(scan, date, Map.of(), "", reason));
    fluid.add(new VisitFluid(scan, date, OptionalDouble.empty(), reason));
  }

  /** Returns the eye's course; without any series when no visit could be mapped. */
  EyeCourse course(List<TreatmentEvent> treatments) {
    List<VisitSeries> series = new ArrayList<>();
    for (MappedLayer layer : first.map(MeasuredScan::layers).orElse(List.of())) {
      for (SectorResult sector : layer.table().sectors()) {
        series.add(series(layer.table(), sector));
      }
    }
    return new EyeCourse(eye, series, fluid, treatments);
  }

  private VisitSeries series(SectorTable table, SectorResult sector) {
    LocalDate start = table.scan().acquired().orElseThrow().toLocalDate();
    List<VisitPoint> points = new ArrayList<>();
    for (Entry entry : entries) {
      long days = ChronoUnit.DAYS.between(start, entry.date());
      boolean isFirst = entry.scan().equals(table.scan());
      points.add(
          isFirst
              ? first(entry, sector)
              : later(entry, days, entry.changes().get(table.layer()), sector.sector()));
    }
    return new VisitSeries(eye, table.layer(), table.grid().name(), sector.sector(), points);
  }

  private static VisitPoint first(Entry entry, SectorResult sector) {
    VisitValue value =
        sector instanceof Measured measured
            ? new VisitValue.Given(measured.meanUm(), 0)
            : new VisitValue.Missing(((NotMeasurable) sector).detail());
    return new VisitPoint(
        entry.scan(), entry.date(), 0, value, sector.coveredFraction(), entry.alignment());
  }

  private static VisitPoint later(Entry entry, long days, ChangeTable table, String sector) {
    if (table == null) {
      return new VisitPoint(
          entry.scan(), entry.date(), days, new VisitValue.Missing(entry.reason()), 0, "");
    }
    SectorChange change = table.sector(sector).orElseThrow();
    VisitValue value =
        change instanceof SectorChange.MeasuredChange measured
            ? new VisitValue.Given(measured.followUpUm(), measured.changeUm())
            : new VisitValue.Missing(((SectorChange.NotMeasurableChange) change).detail());
    return new VisitPoint(
        entry.scan(), entry.date(), days, value, change.coveredFraction(), entry.alignment());
  }

  private static List<List<SectorResult>> numbers(MeasuredScan scan) {
    return scan.layers().stream().map(layer -> layer.table().sectors()).toList();
  }
}

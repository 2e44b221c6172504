package org.isopach.job;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.report.run.RunRecord;
import org.isopach.report.table.AlignedChange;
import org.isopach.report.table.GradedScan;
import org.isopach.report.table.LaidScan;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveTable;

/** Gathers what a run brings, scan by scan: small things only, no map and no boundary. */
final class RunLedger {
  private static final String TOMOGRAPHY = "tomography";

  private final JobListener listener;
  private final List<SectorTable> tables = new ArrayList<>();
  private final List<SectorTable> imported = new ArrayList<>();
  private final Map<String, Double> lateralScales = new TreeMap<>();
  private final List<RegionTable> regions = new ArrayList<>();
  private final List<GradedScan> grades = new ArrayList<>();
  private final List<AlignedChange> changes = new ArrayList<>();
  private final List<LaidScan> laidScans = new ArrayList<>();
  private final List<NerveTable> nerve = new ArrayList<>();
  private final List<NerveChange> nerveChanges = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private final List<WrittenFile> files = new ArrayList<>();
  private final List<RunRecord.Input> inputs = new ArrayList<>();
  private final List<RunRecord.ObjectTime> times = new ArrayList<>();
  private boolean anyMeasured;

  RunLedger(JobListener listener) {
    this.listener = listener;
  }

  void add(Finding finding) {
    if (!alreadySaid(finding)) {
      findings.add(finding);
      listener.finding(finding);
    }
  }

  /** Reading may have said before what measuring finds in its way. */
  private boolean alreadySaid(Finding finding) {
    if (finding.kind() != FindingKind.NO_PLACEMENT && finding.kind() != FindingKind.NO_LATERALITY) {
      return false;
    }
    return findings.stream()
        .filter(earlier -> earlier.subject().equals(finding.subject()))
        .anyMatch(
            earlier ->
                earlier.kind() == finding.kind()
                    || (finding.kind() == FindingKind.NO_LATERALITY
                        && (earlier.kind() == FindingKind.NO_LATERALITY
                            || earlier.kind() == FindingKind.LATERALITY_CONTRADICTION)));
  }

  void add(MeasuredScan scan) {
    scan.findings().forEach(this::add);
    scan.layers().forEach(layer -> tables.add(layer.table()));
    regions.addAll(scan.regions());
    scan.place().ifPresent(place -> scale(scan.scan(), place.lateralScale()));
    grades.add(
        new GradedScan(
            scan.scan().identity(),
            scan.scan().laterality(),
            scan.quality(),
            scan.fovea(),
            scan.disc(),
            scan.findings().stream().map(Finding::kind).toList()));
    anyMeasured |= scan.measured();
  }

  /** Returns a scan with all that the run has said of it so far, by reading and by measuring. */
  MeasuredScan withAllSaid(MeasuredScan scan) {
    return scan.saying(saidOf(scan.scan().document().location()));
  }

  /** Returns all that the run has said of a subject so far. */
  List<Finding> saidOf(String subject) {
    return findings.stream().filter(finding -> finding.subject().equals(subject)).toList();
  }

  /** Takes what one scan shows of the nerve by itself. */
  void add(NerveSighting one) {
    one.findings().forEach(this::add);
    grades.add(
        new GradedScan(
            one.scan().identity(),
            one.scan().laterality(),
            one.quality(),
            one.seen().fovea(),
            one.seen().disc(),
            one.findings().stream().map(Finding::kind).toList()));
  }

  /** Takes what was measured of the nerve; ganglion cells alone are no scan of it. */
  void add(NerveScan scan) {
    scan.findings().forEach(this::add);
    nerve.addAll(scan.tables());
    scale(scan.sighting().scan(), scan.sighting().lateralScale());
    anyMeasured |= scan.measuresNerve();
  }

  /** Takes the sectors of a map that came as an object: somebody else measured it. */
  void addImported(MappedLayer layer) {
    imported.add(layer.table());
    anyMeasured |= layer.anyMeasured();
  }

  void add(ScanChange change) {
    change.findings().forEach(this::add);
    change.layers().forEach(layer -> changes.add(layer.change()));
    change.laid().ifPresent(laid -> laidScans.add(laid.row()));
  }

  void add(WrittenFile file) {
    files.add(file);
  }

  void add(List<FileOutcome> outcomes) {
    for (FileOutcome outcome : outcomes) {
      outcome.file().ifPresent(this::add);
      outcome.finding().ifPresent(this::add);
    }
  }

  private void scale(OctScan scan, double lateralScale) {
    lateralScales.put(scan.identity().sopUid(), lateralScale);
  }

  /** Returns what the lengths of each scan were multiplied with, by its SOP Instance UID. */
  Map<String, Double> lateralScales() {
    return lateralScales;
  }

  void time(String sopUid, long segmentNanos, long mapNanos, long writeNanos) {
    times.add(
        new RunRecord.ObjectTime(
            sopUid, millis(segmentNanos), millis(mapNanos), millis(writeNanos)));
  }

  void input(OctScan scan, String outcome) {
    inputs.add(input(TOMOGRAPHY, scan.document(), scan.identity(), outcome));
  }

  void input(ThicknessMap map, String outcome) {
    inputs.add(input("thickness-map", map.document(), map.scan(), outcome));
  }

  void input(RunRecord.Input input) {
    inputs.add(input);
  }

  private static RunRecord.Input input(
      String kind, SourceDocument document, ScanIdentity identity, String outcome) {
    return new RunRecord.Input(
        kind,
        document.location(),
        document.sha256(),
        identity.patientId(),
        identity.studyUid(),
        identity.seriesUid(),
        identity.sopUid(),
        outcome);
  }

  /** Returns the sectors of all maps, those that came as objects last. */
  List<SectorTable> tables() {
    return Stream.concat(tables.stream(), imported.stream()).toList();
  }

  /** Returns the sectors of what this run measured itself. */
  List<SectorTable> measuredTables() {
    return tables;
  }

  /** Returns the sectors of maps that came as objects. */
  List<SectorTable> importedTables() {
    return imported;
  }

  List<RegionTable> regions() {
    return regions;
  }

  List<GradedScan> grades() {
    return grades;
  }

  List<NerveTable> nerve() {
    return nerve;
  }

  void add(NerveChange change) {
    nerveChanges.add(change);
  }

  List<NerveChange> nerveChanges() {
    return nerveChanges;
  }

  List<LaidScan> laidScans() {
    return laidScans;
  }

  List<AlignedChange> changes() {
    return changes;
  }

  List<Finding> findings() {
    return findings;
  }

  /** Returns the files in the order of their names. */
  List<WrittenFile> files() {
    return files.stream().sorted(Comparator.comparing(file -> file.path().toString())).toList();
  }

  List<RunRecord.Input> inputs() {
    return inputs;
  }

  List<RunRecord.ObjectTime> times() {
    return times;
  }

  /** Returns whether the tables have a layer of a scan already. */
  boolean hasTable(String sopUid, Layer layer) {
    return tables().stream()
        .anyMatch(table -> table.scan().sopUid().equals(sopUid) && table.layer().equals(layer));
  }

  /** Returns whether a scan was taken in as such, not as a map of it. */
  boolean tookScan(String sopUid) {
    return inputs.stream()
        .anyMatch(input -> input.kind().equals(TOMOGRAPHY) && input.sopUid().equals(sopUid));
  }

  ExitStatus status() {
    return ExitStatus.of(anyMeasured, findings);
  }

  static long millis(long nanos) {
    return nanos / 1_000_000;
  }
}

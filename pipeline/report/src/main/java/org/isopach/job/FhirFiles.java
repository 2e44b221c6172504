package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.Software;
import org.isopach.report.fhir.FhirBundle;
import org.isopach.report.fhir.FhirText;
import org.isopach.report.fhir.FhirVisit;
import org.isopach.report.run.RunRecord;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.SectorFile;

/** Writes what a run measured as FHIR transactions, one for each eye and study. */
final class FhirFiles {
  private final RunFolder folder;
  private final Software software;

  /** Which eye in which study. */
  private record Key(String studyUid, Laterality eye) {
    static final Comparator<Key> ORDER =
        Comparator.comparing(Key::studyUid).thenComparing(Key::eye);
  }

  /** What was measured of it, in the order of the tables. */
  private record Tables(List<SectorTable> grids, List<NerveTable> nerves) {
    List<ScanIdentity> scans() {
      return Stream.concat(
              grids.stream().map(SectorTable::scan), nerves.stream().map(NerveTable::scan))
          .distinct()
          .toList();
    }
  }

  FhirFiles(RunFolder folder, Software software) {
    this.folder = folder;
    this.software = software;
  }

  /**
   * Writes the files and notes them in the ledger; what is refused becomes a finding.
   *
   * @throws IOException when a file cannot be written
   */
  void write(RunLedger ledger) throws IOException {
    Map<String, List<FindingKind>> flags = flags(ledger);
    SortedMap<Key, Tables> visits = visits(ledger);
    for (Map.Entry<Key, Tables> visit : visits.entrySet()) {
      write(visit.getKey(), visit.getValue(), flags, ledger);
    }
    ledger.importedTables().stream()
        .map(table -> new Key(table.scan().studyUid(), table.laterality()))
        .filter(key -> !visits.containsKey(key))
        .distinct()
        .sorted(Key.ORDER)
        .forEach(
            key -> ledger.add(refused(key, "all its numbers come from maps that are objects")));
  }

  private static Finding refused(Key key, String why) {
    String subject = "study " + key.studyUid() + ", " + key.eye().word() + " eye";
    return new Finding(FindingKind.FHIR_REFUSED, subject, why);
  }

  /** A number of a map that somebody else measured would stand there as ours: it is left out. */
  private static SortedMap<Key, Tables> visits(RunLedger ledger) {
    SortedMap<Key, Tables> visits = new TreeMap<>(Key.ORDER);
    for (SectorTable table : SectorFile.inOrder(ledger.measuredTables())) {
      tables(visits, table.scan(), table.laterality()).grids().add(table);
    }
    for (NerveTable table : NerveFile.inOrder(ledger.nerve())) {
      tables(visits, table.scan(), table.laterality()).nerves().add(table);
    }
    return visits;
  }

  private static Tables tables(SortedMap<Key, Tables> visits, ScanIdentity scan, Laterality eye) {
    return visits.computeIfAbsent(
        new Key(scan.studyUid(), eye), key -> new Tables(new ArrayList<>(), new ArrayList<>()));
  }

  private void write(Key key, Tables tables, Map<String, List<FindingKind>> flags, RunLedger ledger)
      throws IOException {
    List<String> patients = named(tables, ScanIdentity::patientId).distinct().toList();
    List<String> issuers =
        named(tables, ScanIdentity::patientIdIssuer)
            .filter(name -> !name.isEmpty())
            .distinct()
            .toList();
    Optional<String> obstacle = obstacle(key.studyUid(), patients, issuers);
    if (obstacle.isPresent()) {
      ledger.add(refused(key, obstacle.get()));
      return;
    }
    Eye eye = new Eye(patients.get(0), issuers.isEmpty() ? "" : issuers.get(0), key.eye());
    Path target = folder.fhir(key.studyUid(), key.eye());
    FhirVisit visit =
        new FhirVisit(
            eye, key.studyUid(), tables.grids(), tables.nerves(), flags, ledger.lateralScales());
    ledger.add(new WrittenFile(target, FhirBundle.write(target, visit, software)));
  }

  private static Stream<String> named(Tables tables, Function<ScanIdentity, String> what) {
    return tables.scans().stream().map(what);
  }

  /** A number must not be filed under somebody else's name. */
  private static Optional<String> obstacle(
      String studyUid, List<String> patients, List<String> issuers) {
    if (!FhirText.isUid(studyUid)) {
      return Optional.of("the Study Instance UID is no UID");
    }
    if (patients.size() > 1 || issuers.size() > 1) {
      return Optional.of("its scans name more than one patient");
    }
    boolean sound =
        Stream.concat(patients.stream(), issuers.stream())
            .allMatch(text -> text.isEmpty() || FhirText.isString(text));
    return sound
        ? Optional.empty()
        : Optional.of("Patient ID or its issuer has characters that FHIR does not allow");
  }

  /**
   * Returns what was said of each scan, by its SOP Instance UID, in the order it was said. A map of
   * a scan is an input of the same name: it adds to what was said of the scan.
   */
  private static Map<String, List<FindingKind>> flags(RunLedger ledger) {
    Map<String, List<FindingKind>> byLocation = new TreeMap<>();
    ledger.findings().stream()
        .filter(finding -> NumberFlags.OF_ANY_NUMBER.contains(finding.kind()))
        .collect(Collectors.groupingBy(Finding::subject, TreeMap::new, Collectors.toList()))
        .forEach(
            (subject, said) ->
                byLocation.put(subject, said.stream().map(Finding::kind).distinct().toList()));
    Map<String, List<FindingKind>> flags = new LinkedHashMap<>();
    for (RunRecord.Input input : ledger.inputs()) {
      flags.merge(
          input.sopUid(),
          byLocation.getOrDefault(input.location(), List.of()),
          (one, other) -> Stream.concat(one.stream(), other.stream()).distinct().toList());
    }
    return flags;
  }
}

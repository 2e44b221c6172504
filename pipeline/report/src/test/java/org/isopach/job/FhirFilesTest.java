package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.file.FileDigest;
import org.isopach.fixtures.dicom.NerveCase;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.job.post.BundlePoster;
import org.isopach.job.post.FhirServer;
import org.isopach.job.post.PostResult;
import org.isopach.job.post.SmallFhirServer;
import org.isopach.report.Software;
import org.isopach.report.fhir.R4Validator;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The FHIR files of real runs: against the tables, the validator of R4 and a small server. */
class FhirFilesTest {
  private static final ThicknessMapWriter NO_OBJECTS =
      (map, source, provenance, target) ->
          new MapWriteResult.Refused(MapWriteResult.Reason.NO_VALUES, "not asked for");
  private static final ScanPlan WIDE = SampleScans.SMALL;
  private static final ScanPlan NARROW =
      ScanPlan.raster(new ScanSize(15, 96, 400), 3.87, 4.4, 4.4, 0);

  @TempDir static Path shared;
  private static JobResult run;

  @BeforeAll
  static void measure() throws Exception {
    List<OctScan> scans =
        List.of(
            scan("TSEU-1", "Tern Sound Eye Unit", "2.25.811", Laterality.RIGHT, WIDE),
            scan("TSEU-1", "", "2.25.811", Laterality.LEFT, NARROW),
            nobody());
    run = run("measure", scans, EnumSet.of(Output.FHIR));
  }

  @Test
  void everyFileIsInTheRecordOfTheRun() throws IOException {
    List<Path> files = fhir(run);
    assertEquals(
        List.of("2.25.811_L.json", "2.25.811_R.json", "2.25.812_R.json"),
        files.stream().map(file -> file.getFileName().toString()).toList());
    for (WrittenFile file : run.files()) {
      assertEquals(FileDigest.sha256(file.path()), file.sha256());
    }
  }

  @Test
  void valuesAreThoseOfTheTable() throws IOException {
    int refused = 0;
    for (Path file : fhir(run)) {
      Map<String, Observation> observations = byCode(file);
      List<String> name = List.of(file.getFileName().toString().replace(".json", "").split("_", 2));
      List<CSVRecord> rows = rows(run.folder().sectors(), name.get(0), name.get(1));
      for (CSVRecord row : rows) {
        String sector = row.get("sector");
        assertRow(
            row, "mean_um", row.get("reason"), observations.get(RowCodes.ofSector(row, sector)));
        refused += row.get("measurable").equals("false") ? 1 : 0;
        if (sector.equals("total")) {
          Observation volume = observations.get(RowCodes.ofSector(row, "total-volume"));
          assertRow(row, "volume_mm3", row.get("reason"), volume);
          Observation point = observations.get(RowCodes.ofSector(row, "centre-point"));
          assertEquals(row.get("centre_point_um").isEmpty(), !point.hasValue());
        }
      }
      long layers = rows.stream().map(row -> row.get("layer")).distinct().count();
      assertTrue(layers >= 12, layers + " layers");
      assertEquals(layers * 12, observations.size(), "9 sectors, total, volume, centre");
    }
    assertTrue(refused > 10, "outer sectors of narrow scans are refused: " + refused);
  }

  @Test
  void loincStandsForOneLayerOnly() throws IOException {
    for (Path file : fhir(run)) {
      List<Observation> loinc =
          resources(file, Observation.class).stream()
              .filter(one -> one.getCode().getCodingFirstRep().getSystem().contains("loinc"))
              .toList();
      assertEquals(11, loinc.size());
      assertTrue(loinc.stream().allMatch(one -> one.getCode().getText().startsWith("ILM-RPE ")));
    }
  }

  @Test
  void patientIsNamedAsFarAsTheScansDo() throws IOException {
    Patient known = patient(Laterality.RIGHT, "2.25.811");
    assertEquals("TSEU-1", known.getIdentifierFirstRep().getValue());
    assertEquals("Tern Sound Eye Unit", known.getIdentifierFirstRep().getAssigner().getDisplay());
    Patient other = patient(Laterality.LEFT, "2.25.811");
    assertFalse(other.getIdentifierFirstRep().hasSystem(), "this scan names no issuer");
    Patient nobody = patient(Laterality.RIGHT, "2.25.812");
    assertFalse(nobody.hasIdentifier());
  }

  @Test
  void validatorFindsNoErrorInRealOutputNorDoesAServer() throws Exception {
    Path nobody = run.folder().fhir("2.25.812", Laterality.RIGHT);
    assertEquals(List.of(), R4Validator.errors(bundle(nobody)));
    try (SmallFhirServer server = new SmallFhirServer()) {
      FhirServer there =
          new FhirServer(
              server.base(), Optional.empty(), Optional.empty(), Duration.ofMinutes(5), 0);
      URI system = URI.create("https://ids.example.org/tseu");
      PostResult result =
          new BundlePoster(there, Optional.of(system), line -> {}).post(run.folder().root());

      assertEquals(List.of(), server.errors());
      assertEquals(2, result.posted().size(), result.toString());
      assertEquals(1, result.failures().size(), "the scan of nobody");
      assertEquals(1, server.kept().values().stream().filter(Patient.class::isInstance).count());
    }
  }

  @Test
  void sameInputGivesTheSameBytes() throws Exception {
    JobResult again = run("again", List.of(nobody()), EnumSet.of(Output.FHIR));
    Path file = again.folder().fhir("2.25.812", Laterality.RIGHT);
    assertEquals(-1, Files.mismatch(file, run.folder().fhir("2.25.812", Laterality.RIGHT)));
  }

  @Test
  void aStudyOfTwoPatientsIsRefused() throws Exception {
    JobResult mixed =
        run(
            "mixed",
            List.of(
                scan("TSEU-1", "", "2.25.814", Laterality.RIGHT, NARROW),
                scan("TSEU-2", "", "2.25.814", Laterality.RIGHT, NARROW),
                scan("TSEU-3", "", "no uid", Laterality.RIGHT, NARROW)),
            EnumSet.of(Output.FHIR));
    assertEquals(List.of(), fhir(mixed));
    assertEquals(
        List.of("its scans name more than one patient", "the Study Instance UID is no UID"),
        mixed.findings().stream()
            .filter(finding -> finding.kind() == FindingKind.FHIR_REFUSED)
            .map(finding -> finding.detail())
            .toList());
  }

  @Test
  void nerveValuesAreThoseOfTheTable() throws Exception {
    OctScan circle = NerveCase.SOUND_CIRCLE.scan().scan();
    NerveJob job =
        new NerveJob(
            inputs -> SampleScans.contents(List.of(circle)), NO_OBJECTS, Software.current());
    Path out = shared.resolve("nerve");
    JobRequest request =
        NerveRequest.job(List.of(out), out, AxialLengths.NONE, EnumSet.of(Output.FHIR), 2);
    NerveRequest asked = new NerveRequest(3.46, false, Optional.<ReferenceTable>empty());
    JobResult result = job.run(request, asked, JobListener.SILENT).job();

    Path file = fhir(result).get(0);
    assertEquals(List.of(), R4Validator.errors(bundle(file)));
    Map<String, Observation> observations = byCode(file);
    List<CSVRecord> rows = rows(result.folder().nerve(), circle.identity().studyUid(), "R");
    assertEquals(rows.size(), observations.size());
    for (CSVRecord row : rows) {
      Observation one = observations.get(RowCodes.ofNerve(row));
      assertRow(row, "value", row.get("reason"), one);
      assertEquals(row.get("unit"), one.getValueQuantity().getCode());
    }
  }

  private static OctScan nobody() {
    return scan("", "", "2.25.812", Laterality.RIGHT, NARROW);
  }

  private static Patient patient(Laterality eye, String study) throws IOException {
    return resources(run.folder().fhir(study, eye), Patient.class).get(0);
  }

  private static JobResult run(String name, List<OctScan> scans, Set<Output> outputs)
      throws Exception {
    Path out = shared.resolve(name);
    JobRequest request = JobRequest.of(List.of(out), out).writing(outputs).onThreads(2);
    return new ThicknessJob(inputs -> SampleScans.contents(scans), NO_OBJECTS, Software.current())
        .run("measure", request, JobListener.SILENT);
  }

  private static OctScan scan(
      String patient, String issuer, String study, Laterality eye, ScanPlan plan) {
    OctScan made = PhantomScan.of(PhantomParameters.meanEye(eye), plan).scan();
    String number = Integer.toUnsignedString((patient + study + eye).hashCode());
    OctScan named =
        SampleScans.withIdentity(
            made,
            new ScanIdentity(
                patient,
                study,
                "2.25.82" + number,
                "2.25.83" + number,
                Optional.of(LocalDateTime.of(2026, 2, 3, 10, 0)),
                issuer));
    return SampleScans.located(named, "scan " + number);
  }

  private static void assertRow(CSVRecord row, String column, String reason, Observation one) {
    String value = one.hasValue() ? one.getValueQuantity().getValue().toPlainString() : "";
    assertEquals(row.get(column), value, row.toString());
    assertEquals(reason, one.hasValue() ? "" : one.getDataAbsentReason().getText());
    assertEquals(
        row.get("covered_fraction"),
        one.getComponentFirstRep().getValueQuantity().getValue().toPlainString());
  }

  private static List<Path> fhir(JobResult result) {
    return result.files().stream()
        .map(WrittenFile::path)
        .filter(path -> path.getParent().getFileName().toString().equals("fhir"))
        .toList();
  }

  private static Bundle bundle(Path file) throws IOException {
    return FhirContext.forR4Cached()
        .newJsonParser()
        .parseResource(Bundle.class, Files.readString(file));
  }

  private static <T> List<T> resources(Path file, Class<T> type) throws IOException {
    return bundle(file).getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(type::isInstance)
        .map(type::cast)
        .toList();
  }

  private static Map<String, Observation> byCode(Path file) throws IOException {
    Map<String, Observation> byCode = new TreeMap<>();
    for (Observation one : resources(file, Observation.class)) {
      assertNull(byCode.put(one.getCode().getCodingFirstRep().getCode(), one));
    }
    return byCode;
  }

  private static List<CSVRecord> rows(Path table, String study, String eye) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser parser = format.parse(Files.newBufferedReader(table))) {
      return parser.stream()
          .filter(row -> row.get("study_uid").equals(study) && row.get("laterality").equals(eye))
          .toList();
    }
  }
}

package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.SampleMaps;
import org.isopach.report.Software;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What of a run's ledger goes into FHIR, and what is said with it. */
class FhirLedgerTest {
  private static final String UID = "2.25.813";

  @TempDir Path folder;

  private final OctScan scan = scan();
  private final RunLedger ledger = new RunLedger(JobListener.SILENT);

  /** A map of a scan is an input of the scan's own SOP Instance UID. */
  @Test
  void flagsOfAScanStayWhenItsMapIsThereToo() throws IOException {
    ledger.add(finding(FindingKind.LATERALITY_DOUBTFUL));
    ledger.add(measured(1));
    ledger.input(scan, "measured");
    ledger.input(map(Layer.ILM_RPE), "skipped");
    new FhirFiles(new RunFolder(folder), Software.current()).write(ledger);
    List<Observation> observations = observations();
    assertEquals(12, observations.size());
    for (Observation one : observations) {
      assertTrue(
          one.getNote().stream()
              .anyMatch(note -> note.getText().startsWith("laterality-doubtful: ")),
          one.getCode().getText());
    }
  }

  private MeasuredScan measured(double lateralScale) {
    ThicknessMap map = map(Layer.ILM_RPE);
    return new MeasuredScan(
        scan,
        Optional.empty(),
        Optional.of(new MeasuredScan.Place(scan.path().orElseThrow(), map.centre(), lateralScale)),
        List.of(new MappedLayer(map, SampleMaps.table(map))),
        RegionLabels.none(scan.size()),
        List.of(),
        List.of(),
        new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty()),
        Optional.empty(),
        Optional.empty(),
        0,
        0);
  }

  private ThicknessMap map(Layer layer) {
    return SampleMaps.map(scan.identity(), Laterality.RIGHT, layer, (x, y) -> 300 + y);
  }

  private Finding finding(FindingKind kind) {
    return new Finding(kind, scan.document().location(), "said of the scan");
  }

  private List<Observation> observations() throws IOException {
    Path file = new RunFolder(folder).fhir(UID, Laterality.RIGHT);
    return FhirContext.forR4Cached()
        .newJsonParser()
        .parseResource(Bundle.class, Files.readString(file))
        .getEntry()
        .stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(Observation.class::isInstance)
        .map(Observation.class::cast)
        .toList();
  }

  private static OctScan scan() {
    return SampleScans.withIdentity(
        SampleScans.right("visit/scan.dcm", 0),
        new ScanIdentity(
            "TSEU-1", UID, "2.25.8131", "2.25.8132", Optional.of(SampleMaps.FIRST_VISIT)));
  }
}

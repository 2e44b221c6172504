package org.isopach.job.post;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.isopach.dicom.file.FileDigest;
import org.isopach.report.Software;
import org.isopach.report.fhir.FhirBundle;
import org.isopach.report.fhir.FhirVisit;
import org.isopach.report.run.RunRecord;
import org.isopach.report.run.RunRecordFile;

/** Run folders that hold FHIR files and nothing else. */
final class SampleRun {
  private SampleRun() {}

  /** Writes the FHIR files of visits, and a record that lists them; returns the files. */
  static List<Path> write(Path run, Software software, FhirVisit... visits) throws IOException {
    List<Path> files = new ArrayList<>();
    List<RunRecord.OutputEntry> outputs = new ArrayList<>();
    for (FhirVisit visit : visits) {
      String name = visit.studyUid() + "_" + visit.eye().laterality().code() + ".json";
      Path file = run.resolve("fhir").resolve(name);
      FhirBundle.write(file, visit, software);
      files.add(file);
      outputs.add(new RunRecord.OutputEntry("fhir/" + name, FileDigest.sha256(file)));
    }
    outputs.add(new RunRecord.OutputEntry("sectors.csv", "00"));
    RunRecordFile.write(
        run.resolve("run.json"),
        new RunRecord(
            software,
            List.of(),
            "measure",
            Map.of(),
            0,
            List.of(),
            List.of(),
            outputs,
            0,
            new RunRecord.Timings(0, List.of())));
    return files;
  }
}

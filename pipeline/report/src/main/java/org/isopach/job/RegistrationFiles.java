package org.isopach.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.derive.RegistrationProvenance;
import org.isopach.dicom.derive.RegistrationWriteResult;
import org.isopach.dicom.derive.SpatialRegistrationWriter;
import org.isopach.dicom.file.FileDigest;
import org.isopach.report.Software;

/** Writes registration objects and says why one was refused. */
final class RegistrationFiles {
  private final SpatialRegistrationWriter writer;
  private final RunFolder folder;
  private final Software software;

  RegistrationFiles(SpatialRegistrationWriter writer, RunFolder folder, Software software) {
    this.writer = writer;
    this.folder = folder;
    this.software = software;
  }

  FileOutcome write(FoundRegistration found) throws IOException {
    OctScan baseline = found.registration().baseline();
    OctScan followUp = found.registration().followUp();
    Path target = folder.registration(followUp.identity().sopUid());
    Files.createDirectories(target.getParent());
    RegistrationWriteResult result =
        writer.write(
            found.registration(),
            new RegistrationProvenance(software.version(), found.method()),
            target);
    if (result instanceof RegistrationWriteResult.Written) {
      return FileOutcome.written(target, FileDigest.sha256(target));
    }
    return FileOutcome.refused(
        new Finding(
            FindingKind.REGISTRATION_NOT_WRITTEN,
            followUp.document().location(),
            "onto "
                + baseline.document().location()
                + ": "
                + ((RegistrationWriteResult.Refused) result).detail()));
  }
}

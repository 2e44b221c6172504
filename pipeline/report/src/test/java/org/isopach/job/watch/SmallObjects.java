package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.SopKind;
import org.isopach.dicom.write.DicomWriters;

/** Objects that say no more than what they are and whose: enough for a watcher, not for a job. */
final class SmallObjects {
  private SmallObjects() {}

  /** Writes a tomography. */
  static Path scan(Path file, String patient, String study, String uid) throws IOException {
    return object(file, SopKind.TOMOGRAPHY.uid(), patient, study, uid);
  }

  static Path object(Path file, String sopClass, String patient, String study, String uid)
      throws IOException {
    Dataset dataset =
        Dataset.builder()
            .text(Tags.SOP_CLASS_UID, Vr.UI, sopClass)
            .text(Tags.SOP_INSTANCE_UID, Vr.UI, uid)
            .text(Tags.PATIENT_ID, Vr.LO, patient)
            .text(Tags.STUDY_INSTANCE_UID, Vr.UI, study)
            .text(Tags.SERIES_INSTANCE_UID, Vr.UI, "2.25.77")
            .numbers(Tags.BITS_ALLOCATED, Vr.US, 8)
            .build();
    Files.createDirectories(file.getParent());
    DicomWriters.partTen().write(file, dataset, new byte[400]);
    return file;
  }
}

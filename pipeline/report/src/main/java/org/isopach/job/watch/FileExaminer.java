package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Path;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.file.FileDigest;
import org.isopach.dicom.read.InstanceIdentity;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.SopKind;

/** Looks at one file that seems whole: what it is, whose, and the digest of its bytes. */
final class FileExaminer {
  private final boolean byPatient;
  private final Path results;

  /**
   * Makes an examiner.
   *
   * @param results the folder of results, without symbolic links
   */
  FileExaminer(boolean byPatient, Path results) {
    this.byPatient = byPatient;
    this.results = results;
  }

  /** Returns the verdict on a file; it is opened for reading only. */
  FileVerdict examine(Path file) {
    try {
      return recognised(file);
    } catch (IOException e) {
      return new FileVerdict.Waiting(
          FindingKind.UNREADABLE_FILE, "cannot be read: " + reason(file, e));
    } catch (OutOfMemoryError e) {
      return new FileVerdict.Waiting(FindingKind.FAILED, "there was not enough memory to read it");
    }
  }

  private FileVerdict recognised(Path file) throws IOException {
    try {
      if (file.toRealPath().startsWith(results)) {
        return leftOut(file, FindingKind.LINK_LOOP, "the link leads into the folder of results");
      }
      Optional<SopKind> kind = SopKind.ofUid(InstanceIdentity.sopClassOf(file));
      if (kind.isEmpty()) {
        return leftOut(file, FindingKind.NOT_OPHTHALMIC, "the object is of another kind");
      }
      InstanceIdentity identity = InstanceIdentity.of(file);
      if (identity.studyUid().isEmpty()) {
        return leftOut(
            file, FindingKind.MALFORMED_ATTRIBUTE, "there is no Study Instance UID (0020,000D)");
      }
      UnitKey unit = UnitKey.of(identity.patientId(), identity.studyUid(), byPatient);
      boolean scan = kind.get() == SopKind.TOMOGRAPHY || kind.get() == SopKind.THICKNESS_MAP;
      return new FileVerdict.Member(FileDigest.sha256(file), unit, scan);
    } catch (ObjectDefect e) {
      return e.kind() == FindingKind.TRUNCATED
          ? new FileVerdict.Waiting(e.kind(), e.detail())
          : leftOut(file, e.kind(), e.detail());
    } catch (RuntimeException e) {
      return leftOut(file, FindingKind.FAILED, e.toString());
    }
  }

  private static FileVerdict leftOut(Path file, FindingKind kind, String detail)
      throws IOException {
    return new FileVerdict.LeftOut(FileDigest.sha256(file), kind, detail);
  }

  private static String reason(Path file, IOException e) {
    if (e instanceof AccessDeniedException) {
      return "permission denied";
    }
    String message = e.getMessage() == null ? "" : e.getMessage().replace(file.toString(), "");
    return (e.getClass().getSimpleName() + " " + message).strip();
  }
}

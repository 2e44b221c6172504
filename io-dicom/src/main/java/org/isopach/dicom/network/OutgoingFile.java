package org.isopach.dicom.network;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.Consumer;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.file.FileDigest;
import org.isopach.dicom.read.InstanceIdentity;
import org.isopach.dicom.read.ObjectDefect;

/**
 * A file to be sent.
 *
 * @param path where it lies
 * @param identity which object it is
 * @param sha256 of the whole file, in hexadecimal digits; empty when nobody needs it
 */
public record OutgoingFile(Path path, InstanceIdentity identity, String sha256) {
  private static final int BUFFER = 64 * 1024;

  /**
   * Looks into a file.
   *
   * @throws ObjectDefect when it is damaged, or lacks what a C-STORE request needs
   */
  public static OutgoingFile of(Path path, boolean digest) throws IOException, ObjectDefect {
    InstanceIdentity identity = InstanceIdentity.of(path);
    if (!Uids.sound(identity.sopUid()) || !Uids.sound(identity.sopClassUid())) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE, "SOP Class or Instance UID is missing or not a UID");
    }
    return new OutgoingFile(path, identity, digest ? FileDigest.sha256(path) : "");
  }

  /** Returns what it is, for whoever asks about it later. */
  SentObject sent() {
    return new SentObject(path.toString(), identity.sopClassUid(), identity.sopUid());
  }

  /**
   * Opens the data set, without preamble and file meta information.
   *
   * @param told hears of faults of the file, for whom the reader keeps them from
   * @throws UnreadableFile when the file cannot be read, as does the stream
   */
  public InputStream dataSet(Consumer<UnreadableFile> told) throws UnreadableFile {
    try {
      return UnreadableFile.telling(open(), told);
    } catch (IOException e) {
      UnreadableFile fault = new UnreadableFile(e);
      told.accept(fault);
      throw fault;
    }
  }

  private InputStream open() throws IOException {
    InputStream in = new BufferedInputStream(Files.newInputStream(path), BUFFER);
    try {
      in.skipNBytes(identity.datasetStart());
      return in;
    } catch (IOException e) {
      in.close();
      throw e;
    }
  }
}

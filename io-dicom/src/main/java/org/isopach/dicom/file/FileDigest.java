package org.isopach.dicom.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import org.isopach.analysis.scan.Sha256;

/** Digests of files, read a piece at a time. */
public final class FileDigest {
  private static final int CHUNK = 256 * 1024;

  private FileDigest() {}

  /** Returns the SHA-256 digest of a file's bytes, 64 lower-case hexadecimal digits. */
  public static String sha256(Path file) throws IOException {
    MessageDigest digest = Sha256.start();
    byte[] chunk = new byte[CHUNK];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
        digest.update(chunk, 0, n);
      }
    }
    return Sha256.hex(digest);
  }
}

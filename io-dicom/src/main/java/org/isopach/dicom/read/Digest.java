package org.isopach.dicom.read;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 digests of files (FIPS 180-4). */
final class Digest {
  private static final int CHUNK = 256 * 1024;

  private Digest() {}

  /** Returns the digest of a file's bytes, 64 lower-case hexadecimal digits. */
  static String sha256(Path path) throws IOException {
    try (InputStream in = Files.newInputStream(path)) {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] chunk = new byte[CHUNK];
      for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
        digest.update(chunk, 0, n);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}

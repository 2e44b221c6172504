package org.isopach.report.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 digests as 64 lower-case hexadecimal digits. */
public final class Sha256 {
  private static final int BUFFER_BYTES = 1 << 16;

  private Sha256() {}

  /** Returns the digest of a file's bytes. */
  public static String ofFile(Path file) throws IOException {
    MessageDigest digest = start();
    byte[] buffer = new byte[BUFFER_BYTES];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
        digest.update(buffer, 0, n);
      }
    }
    return hex(digest);
  }

  /** Returns the digest of some bytes. */
  public static String of(byte[] bytes) {
    MessageDigest digest = start();
    digest.update(bytes);
    return hex(digest);
  }

  static MessageDigest start() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  static String hex(MessageDigest digest) {
    return HexFormat.of().formatHex(digest.digest());
  }
}

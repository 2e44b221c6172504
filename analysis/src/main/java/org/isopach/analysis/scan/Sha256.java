package org.isopach.analysis.scan;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 digests (FIPS 180-4) as 64 lower-case hexadecimal digits. */
public final class Sha256 {
  private Sha256() {}

  /** Returns the digest of bytes. */
  public static String of(byte[] bytes) {
    return HexFormat.of().formatHex(start().digest(bytes));
  }

  /** Returns a digest that takes bytes piece by piece. */
  public static MessageDigest start() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** Returns the digest of all pieces so far, and starts anew. */
  public static String hex(MessageDigest pieces) {
    return HexFormat.of().formatHex(pieces.digest());
  }
}

package org.isopach.dicom.derive;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.UUID;

/**
 * UIDs of derived objects: the same names give the same UID, on any machine.
 *
 * <p>The decimal form of a UUID under the root 2.25 (DICOM PS3.5, B.2); the UUID is version 5, made
 * from a namespace of this project and the names (RFC 9562, 5.5).
 */
public final class DerivedUids {
  private static final UUID NAMESPACE = UUID.fromString("a0346bee-4249-432c-a38c-f89645f6cdd1");

  private DerivedUids() {}

  /**
   * Returns the UID of a list of names.
   *
   * @param kind what the UID is for, such as {@code series}
   * @param names everything the content depends on, in a fixed order; the border between two names
   *     counts, so {@code "ab", "c"} and {@code "a", "bc"} give different UIDs
   */
  public static String of(String kind, String... names) {
    StringBuilder joined = new StringBuilder(kind.length() + ":" + kind);
    for (String name : names) {
      joined.append(name.length()).append(':').append(name);
    }
    return ofUuid(nameBased(NAMESPACE, joined.toString()));
  }

  /** Returns the UID that stands for a UUID. */
  static String ofUuid(UUID uuid) {
    byte[] bytes =
        ByteBuffer.allocate(16)
            .putLong(uuid.getMostSignificantBits())
            .putLong(uuid.getLeastSignificantBits())
            .array();
    return "2.25." + new BigInteger(1, bytes);
  }

  /** Returns the version 5 UUID of a name. */
  static UUID nameBased(UUID namespace, String name) {
    MessageDigest sha1;
    try {
      sha1 = MessageDigest.getInstance("SHA-1");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-1", e);
    }
    byte[] text = name.getBytes(StandardCharsets.UTF_8);
    sha1.update(
        ByteBuffer.allocate(16 + text.length)
            .putLong(namespace.getMostSignificantBits())
            .putLong(namespace.getLeastSignificantBits())
            .put(text)
            .array());
    byte[] hash = Arrays.copyOf(sha1.digest(), 16);
    hash[6] = (byte) ((hash[6] & 0x0f) | 0x50);
    hash[8] = (byte) ((hash[8] & 0x3f) | 0x80);
    ByteBuffer buffer = ByteBuffer.wrap(hash);
    return new UUID(buffer.getLong(), buffer.getLong());
  }
}

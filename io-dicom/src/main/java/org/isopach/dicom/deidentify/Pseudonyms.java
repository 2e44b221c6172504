package org.isopach.dicom.deidentify;

import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Names, UIDs and offsets by HMAC-SHA-256 (RFC 2104, FIPS 180-4) of the original under a secret
 * key: the same for the same original and key, in any order and on any machine. Not for several
 * threads.
 */
public final class Pseudonyms {
  /** The shortest key allowed, in bytes. */
  public static final int SHORTEST_KEY = 16;

  private static final int NAME_BYTES = 8;
  private static final int UID_BYTES = 16;
  private static final int LEAST_DAYS = 31;
  private static final int MOST_DAYS = 3650;
  private static final int DATE_DIGITS = 8;
  private static final DateTimeFormatter DAY = DateTimeFormatter.BASIC_ISO_DATE;

  private final Mac mac;

  /**
   * Makes pseudonyms under a key.
   *
   * @throws IllegalArgumentException when the key is shorter than {@link #SHORTEST_KEY}
   */
  public Pseudonyms(byte[] key) {
    if (key.length < SHORTEST_KEY) {
      throw new IllegalArgumentException("the key has fewer than " + SHORTEST_KEY + " bytes");
    }
    try {
      mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key, "HmacSHA256"));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException("every Java runtime has HMAC-SHA-256", e);
    }
  }

  /** Returns the pseudonym of a patient, {@code P} and sixteen hexadecimal digits. */
  String patient(String patient) {
    byte[] hash = Arrays.copyOf(hash("patient", patient), NAME_BYTES);
    return "P" + HexFormat.of().withUpperCase().formatHex(hash);
  }

  /** Returns the new UID, {@code 2.25.} and a UUID (PS3.5, B.2), whatever the old text was. */
  String uid(String uid) {
    byte[] uuid = Arrays.copyOf(hash("uid", uid), UID_BYTES);
    uuid[6] = (byte) ((uuid[6] & 0x0f) | 0x80);
    uuid[8] = (byte) ((uuid[8] & 0x3f) | 0x80);
    return "2.25." + new BigInteger(1, uuid);
  }

  /** Returns by how many days a patient's dates are moved, -3650 to -31. */
  int days(String patient) {
    int spread = MOST_DAYS - LEAST_DAYS + 1;
    BigInteger hash = new BigInteger(1, hash("days", patient));
    return -LEAST_DAYS - hash.mod(BigInteger.valueOf(spread)).intValue();
  }

  /** Returns a DA or DT moved by some days, time kept; empty when it names no day. */
  static Optional<String> moved(String value, int days) {
    String text = value.replaceFirst("^(\\d{4})[.](\\d{2})[.](\\d{2})$", "$1$2$3");
    if (!text.matches("\\d{8}([0-9.]*([+-]\\d{4})?)?")) {
      return Optional.empty();
    }
    try {
      LocalDate day = LocalDate.parse(text.substring(0, DATE_DIGITS), DAY);
      return Optional.of(day.plusDays(days).format(DAY) + text.substring(DATE_DIGITS));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  /** Returns four hexadecimal digits that another key has by a chance of 1 in 65536. */
  String check() {
    return HexFormat.of().formatHex(Arrays.copyOf(hash("check", ""), Short.BYTES));
  }

  private byte[] hash(String use, String text) {
    return mac.doFinal((use + "\0" + text).getBytes(StandardCharsets.UTF_8));
  }
}

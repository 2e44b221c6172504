package org.isopach.analysis.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import org.junit.jupiter.api.Test;

/** The example of one block in NIST's collection of examples for FIPS 180-4 ("abc"). */
class Sha256Test {
  private static final String PUBLISHED =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  @Test
  void isThePublishedDigestAtOnceAndInPieces() {
    MessageDigest pieces = Sha256.start();
    pieces.update((byte) 'a');
    pieces.update("bc".getBytes(StandardCharsets.US_ASCII));

    assertEquals(PUBLISHED, Sha256.of("abc".getBytes(StandardCharsets.US_ASCII)));
    assertEquals(PUBLISHED, Sha256.hex(pieces));
  }
}

package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.UUID;
import org.junit.jupiter.api.Test;

class DerivedUidsTest {
  /** RFC 9562, appendix A.4: version 5 of www.example.com in the DNS namespace. */
  @Test
  void versionFiveAgreesWithThePublishedExample() {
    UUID dns = UUID.fromString("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
    assertEquals(
        UUID.fromString("2ed6657d-e927-568b-95e1-2665a8aea6a2"),
        DerivedUids.nameBased(dns, "www.example.com"));
  }

  /** The example of DICOM PS3.5, B.2 (from memory). */
  @Test
  void decimalFormAgreesWithTheStandardsExample() {
    assertEquals(
        "2.25.329800735698586629295641978511506172918",
        DerivedUids.ofUuid(UUID.fromString("f81d4fae-7dec-11d0-a765-00a0c91e6bf6")));
    assertEquals("2.25.1", DerivedUids.ofUuid(new UUID(0, 1)));
  }

  @Test
  void everyNameAndBorderCounts() {
    String uid = DerivedUids.of("series", "ab", "c");
    assertEquals(uid, DerivedUids.of("series", "ab", "c"));
    assertNotEquals(uid, DerivedUids.of("series", "a", "bc"));
    assertNotEquals(uid, DerivedUids.of("series", "ab", "c", ""));
    assertNotEquals(uid, DerivedUids.of("map", "ab", "c"));
    assertTrue(uid.length() <= 64 && uid.startsWith("2.25."));
  }
}

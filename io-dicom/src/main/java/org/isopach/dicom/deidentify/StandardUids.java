package org.isopach.dicom.deidentify;

import java.util.Set;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.HeaderParser;

/** Which UIDs the standard itself registered (PS3.6, table A-1), as far as we know them. */
final class StandardUids {
  private static final String ROOT = "1.2.840.10008.";

  /** Coding schemes of the standard and its mapping resource (PS3.6, table A-1). */
  private static final Set<String> OTHERS =
      Set.of("1.2.840.10008.2.16.4", "1.2.840.10008.2.6.1", "1.2.840.10008.8.1.1");

  private final HeaderParser parser;

  /** Makes a list with the SOP classes a parser has names for. */
  StandardUids(HeaderParser parser) {
    this.parser = parser;
  }

  /** Returns whether a UID is a registered one as a whole; the root alone says nothing. */
  boolean registered(String uid) {
    return uid.startsWith(ROOT)
        && (OTHERS.contains(uid)
            || Admission.copies(uid)
            || TransferSyntax.ofUid(uid).isPresent()
            || !parser.sopClassName(uid).equals(uid));
  }
}

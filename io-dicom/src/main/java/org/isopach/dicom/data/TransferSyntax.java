package org.isopach.dicom.data;

import java.util.Optional;

/** The transfer syntaxes that are read, by DICOM PS3.5 and PS3.6. */
public enum TransferSyntax {
  IMPLICIT_LITTLE("1.2.840.10008.1.2", false),
  EXPLICIT_LITTLE("1.2.840.10008.1.2.1", false),
  DEFLATED_LITTLE("1.2.840.10008.1.2.1.99", false),
  EXPLICIT_BIG("1.2.840.10008.1.2.2", false),
  JPEG_BASELINE("1.2.840.10008.1.2.4.50", true),
  JPEG_LOSSLESS("1.2.840.10008.1.2.4.57", true),
  JPEG_LOSSLESS_SV1("1.2.840.10008.1.2.4.70", true),
  JPEG_LS_LOSSLESS("1.2.840.10008.1.2.4.80", true),
  JPEG_LS("1.2.840.10008.1.2.4.81", true),
  JPEG_2000_LOSSLESS("1.2.840.10008.1.2.4.90", true),
  JPEG_2000("1.2.840.10008.1.2.4.91", true),
  HTJ2K_LOSSLESS("1.2.840.10008.1.2.4.201", true),
  HTJ2K_LOSSLESS_RPCL("1.2.840.10008.1.2.4.202", true),
  HTJ2K("1.2.840.10008.1.2.4.203", true),
  RLE("1.2.840.10008.1.2.5", true);

  private final String uid;
  private final boolean encapsulated;

  TransferSyntax(String uid, boolean encapsulated) {
    this.uid = uid;
    this.encapsulated = encapsulated;
  }

  /** Returns the UID. */
  public String uid() {
    return uid;
  }

  /** Returns whether pixel data are compressed in fragments. */
  public boolean encapsulated() {
    return encapsulated;
  }

  /** Returns the syntax of a UID, or empty when it is not one of those read. */
  public static Optional<TransferSyntax> ofUid(String uid) {
    for (TransferSyntax syntax : values()) {
      if (syntax.uid.equals(uid)) {
        return Optional.of(syntax);
      }
    }
    return Optional.empty();
  }
}

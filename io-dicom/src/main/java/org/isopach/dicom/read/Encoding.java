package org.isopach.dicom.read;

import org.isopach.dicom.data.TransferSyntax;

/**
 * How attributes are laid out (DICOM PS3.5, section 7 and annex A).
 *
 * @param explicitVr whether each attribute names its value representation
 * @param bigEndian whether the most significant byte comes first
 */
record Encoding(boolean explicitVr, boolean bigEndian) {
  static final Encoding EXPLICIT_LITTLE = new Encoding(true, false);
  static final Encoding IMPLICIT_LITTLE = new Encoding(false, false);

  static Encoding of(TransferSyntax syntax) {
    return new Encoding(
        syntax != TransferSyntax.IMPLICIT_LITTLE, syntax == TransferSyntax.EXPLICIT_BIG);
  }
}

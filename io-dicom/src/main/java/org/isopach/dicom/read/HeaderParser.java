package org.isopach.dicom.read;

import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.TransferSyntax;

/** Turns encoded attributes into values; the port that keeps the toolkit out of sight. */
public interface HeaderParser {
  /**
   * Returns the attributes of a data set whose lengths were checked before.
   *
   * @param encoded the attributes before Pixel Data, one after the other, without file meta
   *     information; not deflated
   * @param syntax how they are laid out
   * @throws ObjectDefect when they cannot be parsed
   */
  Dataset parse(byte[] encoded, TransferSyntax syntax) throws ObjectDefect;

  /** Returns the name of a SOP class, or the UID itself when it is not known. */
  String sopClassName(String uid);
}

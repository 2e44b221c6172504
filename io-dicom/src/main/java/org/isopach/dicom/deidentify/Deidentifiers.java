package org.isopach.dicom.deidentify;

import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;

/** Where de-identifiers come from; the toolkit behind them stays out of sight. */
public final class Deidentifiers {
  private Deidentifiers() {}

  /** Returns one for one run. */
  public static FolderDeidentifier of(Pseudonyms names) {
    return new FolderDeidentifier(new PixelMedObjectReader(), DicomWriters.partTen(), names);
  }
}

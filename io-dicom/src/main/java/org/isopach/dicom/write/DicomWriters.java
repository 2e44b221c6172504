package org.isopach.dicom.write;

import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.derive.DerivedWriters;
import org.isopach.dicom.derive.OphthalmicThicknessMapWriter;
import org.isopach.dicom.derive.RegistrationObjectWriter;
import org.isopach.dicom.derive.SpatialRegistrationWriter;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.toolkit.PixelMedObjectWriter;

/** Where writers come from; the toolkit behind them stays out of sight. */
public final class DicomWriters {
  private DicomWriters() {}

  /** Returns a writer of Part 10 files in Explicit VR Little Endian; safe for several threads. */
  public static DicomObjectWriter partTen() {
    return new PixelMedObjectWriter();
  }

  /** Returns a writer of thickness map objects; it reads the scan's file again for its header. */
  public static ThicknessMapWriter thicknessMaps() {
    return new OphthalmicThicknessMapWriter(DicomFolder.headers(), partTen());
  }

  /** Returns writers of all that goes with a scan; they read its file for the header. */
  public static DerivedWriters ofScans() {
    return DerivedWriters.of(DicomFolder.headers(), partTen());
  }

  /** Returns a writer of registration objects; it reads the follow-up's file for its header. */
  public static SpatialRegistrationWriter registrations() {
    return new RegistrationObjectWriter(DicomFolder.headers(), partTen());
  }
}

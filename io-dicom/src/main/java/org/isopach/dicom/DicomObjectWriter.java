package org.isopach.dicom;

import java.io.IOException;
import java.nio.file.Path;
import org.isopach.dicom.data.Dataset;

/** Writes data sets as DICOM files; the port that keeps the toolkit out of sight. */
public interface DicomObjectWriter {
  /**
   * Writes a Part 10 file in Explicit VR Little Endian: to a temporary name in the same folder,
   * then renamed, so that no half-written file stands under the final name.
   *
   * @param target the file to make or replace; its folder must exist
   * @param dataset all attributes but the pixel data; SOP Class and Instance UID must be present
   * @param pixelData the value of Pixel Data (7FE0,0010): bytes as stored, little endian words when
   *     Bits Allocated is 16; of Float Pixel Data (7FE0,0008), little endian, when it is 32; empty
   *     for an object without pixels
   * @throws IOException when the file cannot be written
   */
  void write(Path target, Dataset dataset, byte[] pixelData) throws IOException;
}

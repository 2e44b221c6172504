package org.isopach.dicom;

import java.nio.file.Path;
import java.util.List;
import org.isopach.dicom.derive.SourceHeaders;
import org.isopach.dicom.read.FolderReader;
import org.isopach.dicom.read.SourceFiles;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/** Scans and maps in DICOM files, in folders of any nesting and naming. Stateless. */
public final class DicomFolder implements ScanArchive {
  private DicomFolder() {}

  /** Returns an archive that reads files and folders. */
  public static DicomFolder reader() {
    return new DicomFolder();
  }

  /** Returns what gives the attributes of the scans that {@link #reader()} found. */
  public static SourceHeaders headers() {
    return new SourceFiles(new PixelMedObjectReader());
  }

  @Override
  public FolderContents read(List<Path> inputs) {
    return new FolderReader(new PixelMedObjectReader()).read(inputs);
  }
}

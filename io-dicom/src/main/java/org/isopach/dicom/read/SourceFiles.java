package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.derive.SourceHeaders;
import org.isopach.dicom.file.FileDigest;

/**
 * Gives a scan's attributes by reading its file again; nothing of it is held meanwhile. Private
 * groups, icons and single values above 1 MiB are left out.
 */
public final class SourceFiles implements SourceHeaders {
  private final HeaderParser parser;

  /** Makes a source of headers. */
  public SourceFiles(HeaderParser parser) {
    this.parser = parser;
  }

  @Override
  public Dataset header(OctScan scan) throws IOException {
    Path path = Path.of(scan.document().location());
    if (!FileDigest.sha256(path).equals(scan.document().sha256())) {
      throw new IOException(path + " has changed since it was first read");
    }
    try {
      return ParsedObject.of(path, parser).attributes();
    } catch (ObjectDefect e) {
      throw new IOException(path + ": " + e.detail(), e);
    }
  }
}

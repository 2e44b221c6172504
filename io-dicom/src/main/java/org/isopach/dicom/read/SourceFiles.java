package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.derive.SourceHeaders;
import org.isopach.dicom.file.FileDigest;

/**
 * Gives a scan's attributes by reading its file again; those of the last one asked for are held,
 * since many objects are made of one scan. Private groups, icons and single values above 1 MiB are
 * left out. Safe for several threads.
 */
public final class SourceFiles implements SourceHeaders {
  private final HeaderParser parser;
  private volatile Optional<Held> last = Optional.empty();

  /** The attributes of a file as it was when it had this digest. */
  private record Held(SourceDocument document, Dataset attributes) {}

  /** Makes a source of headers. */
  public SourceFiles(HeaderParser parser) {
    this.parser = parser;
  }

  @Override
  public Dataset header(OctScan scan) throws IOException {
    Optional<Held> held = last.filter(one -> one.document().equals(scan.document()));
    if (held.isPresent()) {
      return held.get().attributes();
    }
    Dataset attributes = read(scan);
    last = Optional.of(new Held(scan.document(), attributes));
    return attributes;
  }

  private Dataset read(OctScan scan) throws IOException {
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

package org.isopach.analysis.scan;

import java.util.Objects;

/**
 * The document a scan or map came from, for messages and provenance.
 *
 * @param location where it lies, as the user named it
 * @param sha256 digest of its bytes, 64 lower-case hexadecimal digits
 */
public record SourceDocument(String location, String sha256) {
  public SourceDocument {
    Objects.requireNonNull(location, "location");
    Objects.requireNonNull(sha256, "sha256");
  }
}

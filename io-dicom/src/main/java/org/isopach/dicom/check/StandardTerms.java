package org.isopach.dicom.check;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Terms of code strings (CS) that the standard itself lays down, as far as our tables go. */
public final class StandardTerms {
  /**
   * Terms of PS3.3 our tables have no row for: C.7.6.1.1.2, C.7.6.3.1.2, C.8.17.2.1, C.12.1.1.2.
   */
  private static final List<String> OTHERS =
      List.of(
          "ORIGINAL",
          "DERIVED",
          "PRIMARY",
          "SECONDARY",
          "VOLUME",
          "RETINAL_THICK",
          "MONOCHROME1",
          "PALETTE COLOR",
          "RGB",
          "YBR_FULL",
          "YBR_FULL_422",
          "YBR_ICT",
          "YBR_RCT",
          "ISO_IR 100",
          "ISO_IR 192");

  private StandardTerms() {}

  /** Returns enumerated values and defined terms of all attributes of the carried tables. */
  public static Set<String> all() {
    Set<String> terms = new TreeSet<>(OTHERS);
    try (InputStream in = StandardTerms.class.getResourceAsStream(IodTables.RESOURCE)) {
      collect(new ObjectMapper().readTree(in), terms);
    } catch (IOException e) {
      throw new UncheckedIOException(IodTables.RESOURCE + " cannot be read", e);
    }
    return Collections.unmodifiableSet(terms);
  }

  private static void collect(JsonNode node, Set<String> into) {
    for (JsonNode vr : node.path("vr")) {
      if (vr.asText().equals("CS")) {
        node.path("values").forEach(term -> into.add(term.asText()));
        node.path("terms").forEach(term -> into.add(term.asText()));
      }
    }
    node.forEach(child -> collect(child, into));
  }
}

package org.isopach.report.picture;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;

/**
 * Everything that stands on one map sheet.
 *
 * @param title the heading
 * @param subtitle the line below it
 * @param laterality which eye; decides where nasal and temporal are written
 * @param field the values
 * @param scale what colours and lines stand for
 * @param ramp the colours
 * @param outlines lines drawn over the map
 * @param sectors the grid with its numbers
 * @param headings headings of the table's last two columns
 * @param rows the table beside the map
 * @param facts label and text pairs for the column beside the map
 * @param notes sentences under the table: reasons of refusal and the like
 * @param provenance lines at the foot: object, software, method of the picture
 */
record Sheet(
    String title,
    String subtitle,
    Laterality laterality,
    ValueField field,
    ValueScale scale,
    ColourRamp ramp,
    List<SheetLine> outlines,
    List<SheetSector> sectors,
    Headings headings,
    List<Row> rows,
    List<Fact> facts,
    List<String> notes,
    List<String> provenance) {

  /** A label and its text. */
  record Fact(String label, String text) {
    Fact {
      Objects.requireNonNull(label, "label");
      Objects.requireNonNull(text, "text");
    }
  }

  /** The headings of the table's last two columns. */
  record Headings(String third, String fourth) {
    Headings {
      Objects.requireNonNull(third, "third");
      Objects.requireNonNull(fourth, "fourth");
    }
  }

  /** A sector's line in the table; the value is empty when the sector is refused. */
  record Row(String name, Optional<String> value, String third, String fourth) {
    Row {
      Objects.requireNonNull(name, "name");
      Objects.requireNonNull(value, "value");
      Objects.requireNonNull(third, "third");
      Objects.requireNonNull(fourth, "fourth");
    }
  }

  /** Returns which eye it is, or that it is both, in capitals. */
  String eyes() {
    return scale.betweenEyes() ? "BOTH EYES" : laterality.word().toUpperCase(Locale.ROOT) + " EYE";
  }

  Sheet {
    Objects.requireNonNull(headings, "headings");
    rows = List.copyOf(rows);
    Objects.requireNonNull(title, "title");
    Objects.requireNonNull(subtitle, "subtitle");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(field, "field");
    Objects.requireNonNull(scale, "scale");
    Objects.requireNonNull(ramp, "ramp");
    outlines = List.copyOf(outlines);
    sectors = List.copyOf(sectors);
    facts = List.copyOf(facts);
    notes = List.copyOf(notes);
    provenance = List.copyOf(provenance);
  }
}

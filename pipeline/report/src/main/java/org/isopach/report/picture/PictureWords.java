package org.isopach.report.picture;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;

/** The words that pictures use for values. */
final class PictureWords {
  static final String MICRO = "\u00B5m";
  private static final DateTimeFormatter DATE_TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

  private PictureWords() {}

  static String layerTitle(Layer layer) {
    return layer.inner().code() + "\u2013" + layer.outer().code();
  }

  static String layerWords(Layer layer) {
    return words(layer.inner()) + " to " + words(layer.outer());
  }

  static String dateTime(Optional<LocalDateTime> acquired) {
    return acquired.map(DATE_TIME::format).orElse("date not stated");
  }

  static String patient(String id) {
    return id.isEmpty() ? "id not stated" : id;
  }

  static String centre(Landmark centre) {
    return switch (centre.source()) {
      case FOVEAL_PIT -> "foveal pit";
      case DISC_OPENING -> "centre of the disc's opening";
      case SCAN_MIDDLE -> "middle of the scan (no pit found)";
      case STATED -> "as the object states";
    };
  }

  static String refusal(String sector, String detail) {
    return sector + " refused: " + detail;
  }

  /** Returns a difference with its sign; one that rounds to zero has none. */
  static String signed(double value, int decimals) {
    String text = fixed(value, decimals);
    boolean zero = text.chars().noneMatch(c -> c >= '1' && c <= '9');
    if (zero) {
      return fixed(0, decimals);
    }
    return value > 0 ? "+" + text : text;
  }

  static String fixed(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.startsWith("-") ? "\u2212" + text.substring(1) : text;
  }

  static String sentence(String words) {
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  static String imprint(String software) {
    return software
        + "; colours and numbers from the map as measured, lines from a copy smoothed by "
        + SheetPainter.CONTOUR_SMOOTHING_MM
        + " mm; directions as the examiner sees the eye; border in mm from the centre";
  }

  static String percent(double fraction) {
    return Math.round(100 * fraction) + " %";
  }

  private static String words(Boundary boundary) {
    return switch (boundary) {
      case ILM -> "inner limiting membrane";
      case EZ -> "ellipsoid zone (inner/outer segment line)";
      case RPE -> "outer border of the pigment epithelium";
      case BM -> "Bruch\u2019s membrane";
      default -> boundary.code();
    };
  }
}

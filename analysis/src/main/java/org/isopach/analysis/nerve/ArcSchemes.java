package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The schemes that profiles are cut by, as data with their sources. */
public final class ArcSchemes {
  private static final String SIX_SOURCE =
      "Garway-Heath et al., Ophthalmology 2000;107:1809; limits from memory";

  /** Four arcs of 90 degrees round the four directions. */
  public static final ArcScheme QUADRANTS =
      new ArcScheme(
          "quadrants",
          "LOINC part LP248912-0",
          List.of(
              new Arc("temporal", 315, 90),
              new Arc("superior", 45, 90),
              new Arc("nasal", 135, 90),
              new Arc("inferior", 225, 90)));

  /**
   * Twelve arcs of 30 degrees, three to a quadrant, named after the face of a clock as the examiner
   * sees a right eye; a left eye is mirrored, so that {@code hour-9} is temporal in both.
   */
  public static final ArcScheme CLOCK_HOURS =
      new ArcScheme("clock-hours", "LOINC part LP248912-0; mirroring ours", clockHours());

  /**
   * Six arcs with the limits as drawn in the source, in whole degrees: T 311-40, TS 41-80, NS
   * 81-120, N 121-230, NI 231-270, TI 271-310. A whole degree n is taken as from n to n + 1.
   */
  public static final ArcScheme SIX_SECTORS_AS_DRAWN =
      new ArcScheme("six-sectors-as-drawn", SIX_SOURCE, six(311));

  /** The same six widths, symmetric about the horizontal: T 315-45, TS 45-85 and so on. */
  public static final ArcScheme SIX_SECTORS_SYMMETRIC =
      new ArcScheme(
          "six-sectors-symmetric", SIX_SOURCE + "; turned to begin at 315 degrees", six(315));

  private static final List<ArcScheme> ALL =
      List.of(QUADRANTS, CLOCK_HOURS, SIX_SECTORS_SYMMETRIC, SIX_SECTORS_AS_DRAWN);

  private ArcSchemes() {}

  /** Returns all schemes there are, in the order of tables. */
  public static List<ArcScheme> all() {
    return ALL;
  }

  /** Returns the scheme of a name, or empty. */
  public static Optional<ArcScheme> ofName(String name) {
    return ALL.stream().filter(scheme -> scheme.name().equals(name)).findFirst();
  }

  private static List<Arc> clockHours() {
    List<Arc> arcs = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      int hour = (8 + i) % 12 + 1;
      arcs.add(new Arc("hour-" + hour, DiscAngle.normal(30.0 * i - 15), 30));
    }
    return arcs;
  }

  private static List<Arc> six(double from) {
    String[] names = {
      "temporal", "superotemporal", "superonasal", "nasal", "inferonasal", "inferotemporal"
    };
    double[] widths = {90, 40, 40, 110, 40, 40};
    List<Arc> arcs = new ArrayList<>();
    double start = from;
    for (int i = 0; i < names.length; i++) {
      arcs.add(new Arc(names[i], DiscAngle.normal(start), widths[i]));
      start += widths[i];
    }
    return arcs;
  }
}

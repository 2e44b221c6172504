package org.isopach.job;

import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.OcularMagnification;
import org.isopach.analysis.scan.OctScan;

/**
 * Axial lengths given by the user, and what they do to lengths on the fundus.
 *
 * <p>A scan's millimetres hold for the axial length that the instrument reckoned with: the one the
 * object states, else {@code assumed}. Where the user gives the eye's own length, lengths on the
 * fundus are multiplied with the ratio of the two magnifications (Bennett's formula, see {@link
 * OcularMagnification}); depths are not touched.
 */
public final class AxialLengths {
  /** The length in mm that instruments are taken to reckon with when an object does not say. */
  public static final double DEFAULT_ASSUMED_MM = 24.0;

  /** No correction. */
  public static final AxialLengths NONE =
      new AxialLengths(Map.of(), new OcularMagnification(DEFAULT_ASSUMED_MM));

  private final Map<Laterality, OcularMagnification> given;
  private final OcularMagnification assumed;

  /**
   * Makes a set of lengths.
   *
   * @param given the eyes' lengths; may be empty
   * @param assumed what instruments reckoned with where the object does not state a length
   */
  public AxialLengths(Map<Laterality, OcularMagnification> given, OcularMagnification assumed) {
    this.given = new EnumMap<>(Laterality.class);
    this.given.putAll(given);
    this.assumed = Objects.requireNonNull(assumed, "assumed");
  }

  /**
   * Returns what the lengths of a scan must be multiplied with, or empty when nothing was given.
   */
  Optional<Double> factor(OctScan scan) {
    return scan.laterality()
        .map(given::get)
        .map(eye -> eye.factorFrom(stated(scan).orElse(assumed)));
  }

  /** Returns the eye's own length in mm: as given, else as the object states it, or empty. */
  Optional<Double> lengthMm(OctScan scan) {
    return scan.laterality()
        .map(given::get)
        .or(() -> stated(scan))
        .map(OcularMagnification::axialLengthMm);
  }

  /** Returns the lengths in mm by laterality code, and the assumed one, for the run record. */
  SortedMap<String, Double> parameters() {
    SortedMap<String, Double> values = new TreeMap<>();
    given.forEach((laterality, eye) -> values.put(laterality.code(), eye.axialLengthMm()));
    if (!values.isEmpty()) {
      values.put("assumed", assumed.axialLengthMm());
    }
    return values;
  }

  private static Optional<OcularMagnification> stated(OctScan scan) {
    return scan.statedAxialLengthMm()
        .filter(mm -> mm >= OcularMagnification.SHORTEST_MM && mm <= OcularMagnification.LONGEST_MM)
        .map(OcularMagnification::new);
  }
}

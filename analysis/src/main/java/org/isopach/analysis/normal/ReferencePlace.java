package org.isopach.analysis.normal;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Layer;

/**
 * What is measured and where, of a reference row or of an eye.
 *
 * @param measure kind of measure
 * @param boundaries name of the layer, for example {@code ILM-RNFL-GCL}, or {@link #RIM} for the
 *     rim
 * @param scheme name of the scheme of sectors; empty for {@link #GLOBAL}, which all schemes share
 * @param sector name of the sector in the scheme, or {@link #GLOBAL}
 * @param diameterMm diameter of the circle in mm; empty where there is none or a source states none
 * @param angleZero where the angle 0 is, {@link #HORIZONTAL} or {@link #FOVEA_DISC_LINE}; empty
 *     where a source does not say or it does not matter
 */
public record ReferencePlace(
    ReferenceMeasure measure,
    String boundaries,
    String scheme,
    String sector,
    OptionalDouble diameterMm,
    Optional<String> angleZero) {
  /** The whole circle, opening or annulus. */
  public static final String GLOBAL = "global";

  /** Boundaries of the rim width: from the end of Bruch's membrane to the ILM. */
  public static final String RIM = "opening-ILM";

  /** Angle 0 is the horizontal of the picture. */
  public static final String HORIZONTAL = "horizontal";

  /** Angle 0 is the direction from the disc's centre to the fovea. */
  public static final String FOVEA_DISC_LINE = "fovea-disc-line";

  public ReferencePlace {
    Objects.requireNonNull(measure, "measure");
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(diameterMm, "diameterMm");
    Objects.requireNonNull(angleZero, "angleZero");
    if (sector.isEmpty() || (scheme.isEmpty() && !sector.equals(GLOBAL))) {
      throw new IllegalArgumentException(
          "a sector needs a name and its scheme, was '" + sector + "' of '" + scheme + "'");
    }
    if (sector.equals(GLOBAL)) {
      scheme = "";
      angleZero = Optional.empty();
    }
  }

  /** Returns the place of a mean along a circle or an arc of it. */
  public static ReferencePlace circle(
      Layer layer, String scheme, String sector, double diameterMm, String angleZero) {
    return new ReferencePlace(
        ReferenceMeasure.CIRCLE,
        layer.name(),
        scheme,
        sector,
        OptionalDouble.of(diameterMm),
        Optional.of(angleZero));
  }

  /** Returns the place of a mean rim width, of the whole opening or an arc of it. */
  public static ReferencePlace rim(String scheme, String sector, String angleZero) {
    return new ReferencePlace(
        ReferenceMeasure.RIM_WIDTH,
        RIM,
        scheme,
        sector,
        OptionalDouble.empty(),
        Optional.of(angleZero));
  }

  /** Returns the place of a mean over an elliptical annulus round the fovea, or a sector of it. */
  public static ReferencePlace ellipse(Layer layer, String scheme, String sector) {
    return new ReferencePlace(
        ReferenceMeasure.ELLIPSE,
        layer.name(),
        scheme,
        sector,
        OptionalDouble.empty(),
        Optional.empty());
  }

  /** Returns whether this is the whole, not a sector. */
  public boolean isGlobal() {
    return sector.equals(GLOBAL);
  }

  /** Returns measure, boundaries and sector in words. */
  public String words() {
    return measure.code()
        + " "
        + boundaries
        + (scheme.isEmpty() ? " " : " " + scheme + " ")
        + sector;
  }
}

package org.isopach.report.picture;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;

/**
 * What colours and lines stand for on a sheet. The range is fixed for a layer, never fitted to the
 * data, so that sheets of different visits and eyes can be laid side by side.
 *
 * @param lowMicrometres value at the lower end of the ramp
 * @param highMicrometres value at the upper end of the ramp
 * @param tickMicrometres distance of the legend's ticks
 * @param lineMicrometres distance of thin contour lines
 * @param indexMicrometres distance of heavy, labelled contour lines; a multiple of the thin ones
 * @param signed whether values are differences and carry their sign
 */
record ValueScale(
    double lowMicrometres,
    double highMicrometres,
    double tickMicrometres,
    double lineMicrometres,
    double indexMicrometres,
    boolean signed) {
  private static final ValueScale WHOLE_RETINA = new ValueScale(100, 500, 50, 10, 50, false);
  private static final ValueScale TO_PHOTORECEPTORS = new ValueScale(50, 450, 50, 10, 50, false);
  private static final ValueScale THIN_LAYER = new ValueScale(0, 200, 25, 5, 25, false);
  private static final ValueScale CHANGE = new ValueScale(-100, 100, 50, 10, 20, true);
  private static final ValueScale ASYMMETRY = new ValueScale(-50, 50, 25, 5, 10, true);

  /**
   * Returns the scale of a layer: 100 to 500 µm for the whole retina (ILM-BM, ILM-RPE) and the
   * choroid, 50 to 450 µm for ILM-EZ and ILM-RPE-inner, 0 to 200 µm for any other.
   */
  static ValueScale ofThickness(Layer layer) {
    if (layer.inner() == Boundary.ILM) {
      return switch (layer.outer()) {
        case BM, RPE -> WHOLE_RETINA;
        case EZ, RPE_INNER -> TO_PHOTORECEPTORS;
        default -> THIN_LAYER;
      };
    }
    return layer.outer() == Boundary.CHOROID_SCLERA ? WHOLE_RETINA : THIN_LAYER;
  }

  /** Returns the scale of every difference: -100 to +100 µm, no change in the middle. */
  static ValueScale ofChange() {
    return CHANGE;
  }

  /** Returns the scale of every difference between two eyes: -50 to +50 µm, alike in the middle. */
  static ValueScale ofAsymmetry() {
    return ASYMMETRY;
  }

  /** Returns whether values are differences between two eyes. */
  boolean betweenEyes() {
    return equals(ASYMMETRY);
  }

  /** Returns what the values are, for the legend. */
  String words() {
    if (betweenEyes()) {
      return "difference in \u00B5m";
    }
    return signed ? "change in \u00B5m" : "thickness in \u00B5m";
  }

  /** Returns where a value lies on the ramp: 0 at the lower end and below, 1 at the upper. */
  double share(double micrometres) {
    double share = (micrometres - lowMicrometres) / (highMicrometres - lowMicrometres);
    return Math.max(0, Math.min(1, share));
  }

  /** Returns the values at which the legend has ticks. */
  List<Double> ticks() {
    List<Double> ticks = new ArrayList<>();
    for (double t = lowMicrometres; t <= highMicrometres + 1e-9; t += tickMicrometres) {
      ticks.add(t);
    }
    return ticks;
  }

  /** Returns whether a level is drawn: no change has no line, it would trace the noise. */
  boolean hasLine(double level) {
    return !signed || level != 0;
  }

  boolean isIndex(double level) {
    return Math.abs(level / indexMicrometres - Math.rint(level / indexMicrometres)) < 1e-9;
  }

  /** Returns a level or value as whole µm, with its sign when values are differences. */
  String label(double micrometres) {
    long whole = Math.round(micrometres);
    return signed && whole > 0 ? "+" + whole : whole < 0 ? "\u2212" + -whole : Long.toString(whole);
  }
}

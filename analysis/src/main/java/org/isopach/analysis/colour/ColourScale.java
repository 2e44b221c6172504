package org.isopach.analysis.colour;

/**
 * A scale of colours for maps. Immutable.
 *
 * <p>Equal steps of the value are equal distances in OKLab, along the whole scale or along each arm
 * of a diverging one, and lightness tells the order alone: the scale reads the same in grey and to
 * colour-blind eyes. The scales carry no judgement such as normal or abnormal.
 */
public final class ColourScale {
  private static final int KNOTS = 1024;

  private static final ColourScale SEQUENTIAL =
      new ColourScale(
          OkLab.ofPolar(0.22, 0.08, 285),
          OkLab.ofPolar(0.58, 0.19, 235),
          OkLab.ofPolar(0.96, 0.06, 130));

  private static final OkLab MIDDLE = new OkLab(0.965, 0, 0);
  private static final ColourScale DIVERGING =
      new ColourScale(OkLab.ofPolar(0.40, 0.13, 255), OkLab.ofPolar(0.40, 0.095, 50));

  private final OkLab[] knots;

  /** One arm: a quadratic curve from start to end, drawn towards a third colour. */
  private ColourScale(OkLab start, OkLab pull, OkLab end) {
    OkLab[] curve = new OkLab[8 * KNOTS + 1];
    double[] length = new double[curve.length];
    for (int i = 0; i < curve.length; i++) {
      double u = (double) i / (curve.length - 1);
      curve[i] = start.towards(pull, u).towards(pull.towards(end, u), u);
      length[i] = i == 0 ? 0 : length[i - 1] + curve[i].distance(curve[i - 1]);
    }
    knots = new OkLab[KNOTS + 1];
    int at = 0;
    for (int k = 0; k <= KNOTS; k++) {
      double wanted = length[length.length - 1] * k / KNOTS;
      while (at < length.length - 2 && length[at + 1] < wanted) {
        at++;
      }
      double share = (wanted - length[at]) / (length[at + 1] - length[at]);
      knots[k] = curve[at].towards(curve[at + 1], share);
    }
  }

  /** Two arms: straight from either end to the neutral middle. */
  private ColourScale(OkLab low, OkLab high) {
    knots = new OkLab[] {low, MIDDLE, high};
  }

  /** Returns the scale for thickness: dark indigo for little, through blue, to pale for much. */
  public static ColourScale sequential() {
    return SEQUENTIAL;
  }

  /** Returns the scale for differences: blue below, near white at 0.5, brown above. */
  public static ColourScale diverging() {
    return DIVERGING;
  }

  /**
   * Returns the colour at a place on the scale.
   *
   * @param t place from 0 to 1; beyond the ends the colour of the end
   * @throws IllegalArgumentException when {@code t} is NaN
   */
  public OkLab at(double t) {
    if (Double.isNaN(t)) {
      throw new IllegalArgumentException("no value has no colour on the scale");
    }
    double place = Math.min(1, Math.max(0, t)) * (knots.length - 1);
    int below = Math.min(knots.length - 2, (int) place);
    return knots[below].towards(knots[below + 1], place - below);
  }

  /**
   * Returns the colour at a place on the scale as 8-bit sRGB, {@code 0xrrggbb}.
   *
   * @param t place from 0 to 1; beyond the ends the colour of the end
   * @throws IllegalArgumentException when {@code t} is NaN
   */
  public int rgb(double t) {
    return at(t).toRgb();
  }
}

package org.isopach.analysis.colour;

/**
 * A colour in OKLab, a space in which equal distances look about equally large.
 *
 * <p>Source of the matrices: B. Ottosson, "A perceptual color space for image processing", 2020
 * (cited from memory; checked in the tests against the sRGB primaries as CSS Color 4 gives them).
 *
 * @param lightness 0 for black to 1 for the white of sRGB
 * @param a green (negative) to red (positive)
 * @param b blue (negative) to yellow (positive)
 */
public record OkLab(double lightness, double a, double b) {

  /** Returns the colour of a lightness, a chroma and a hue angle in degrees. */
  public static OkLab ofPolar(double lightness, double chroma, double hueDegrees) {
    double hue = Math.toRadians(hueDegrees);
    return new OkLab(lightness, chroma * Math.cos(hue), chroma * Math.sin(hue));
  }

  /** Returns the colour of linear-light sRGB components, 0 to 1. */
  public static OkLab ofLinear(double red, double green, double blue) {
    double l = Math.cbrt(0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue);
    double m = Math.cbrt(0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue);
    double s = Math.cbrt(0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue);
    return new OkLab(
        0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
        1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
        0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s);
  }

  /** Returns the colour of 8-bit sRGB, {@code 0xrrggbb}. */
  public static OkLab ofRgb(int rgb) {
    return ofLinear(
        decode((rgb >> 16 & 0xff) / 255.0),
        decode((rgb >> 8 & 0xff) / 255.0),
        decode((rgb & 0xff) / 255.0));
  }

  /** Returns the point at a share {@code t} of the straight way to another colour. */
  public OkLab towards(OkLab other, double t) {
    return new OkLab(
        lightness + t * (other.lightness - lightness),
        a + t * (other.a - a),
        b + t * (other.b - b));
  }

  /** Returns the distance to another colour. */
  public double distance(OkLab other) {
    return Math.sqrt(
        (lightness - other.lightness) * (lightness - other.lightness)
            + (a - other.a) * (a - other.a)
            + (b - other.b) * (b - other.b));
  }

  /** Returns the linear-light red of sRGB; outside 0 to 1 when sRGB has no such colour. */
  public double linearRed() {
    return 4.0767416621 * cone(0) - 3.3077115913 * cone(1) + 0.2309699292 * cone(2);
  }

  /** Returns the linear-light green of sRGB; outside 0 to 1 when sRGB has no such colour. */
  public double linearGreen() {
    return -1.2684380046 * cone(0) + 2.6097574011 * cone(1) - 0.3413193965 * cone(2);
  }

  /** Returns the linear-light blue of sRGB; outside 0 to 1 when sRGB has no such colour. */
  public double linearBlue() {
    return -0.0041960863 * cone(0) - 0.7034186147 * cone(1) + 1.7076147010 * cone(2);
  }

  /** Returns 8-bit sRGB, {@code 0xrrggbb}; components outside sRGB are clipped. */
  public int toRgb() {
    return encode(linearRed()) << 16 | encode(linearGreen()) << 8 | encode(linearBlue());
  }

  private double cone(int which) {
    double root =
        switch (which) {
          case 0 -> lightness + 0.3963377774 * a + 0.2158037573 * b;
          case 1 -> lightness - 0.1055613458 * a - 0.0638541728 * b;
          default -> lightness - 0.0894841775 * a - 1.2914855480 * b;
        };
    return root * root * root;
  }

  /** The sRGB transfer function, IEC 61966-2-1. */
  private static double decode(double value) {
    return value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
  }

  private static int encode(double linear) {
    double value = Math.min(1, Math.max(0, linear));
    double encoded = value <= 0.0031308 ? 12.92 * value : 1.055 * Math.pow(value, 1 / 2.4) - 0.055;
    return (int) Math.round(255 * encoded);
  }
}

package org.isopach.analysis.nerve;

import java.util.function.DoubleUnaryOperator;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;

/** Invented circles round a disc. */
final class Circles {
  static final FundusFrame FRAME = new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.1");

  private Circles() {}

  /**
   * Returns a path of one frame round a centre, by plain trigonometry on the picture.
   *
   * @param startDegrees where it begins, from x towards y (clockwise on the picture)
   * @param turnDegrees from its first to its last A-scan, negative for the other way round
   */
  static ScanPath arc(
      FundusPoint centre, double radiusMm, double startDegrees, double turnDegrees, int ascans) {
    return ellipse(centre, radiusMm, radiusMm, startDegrees, turnDegrees, ascans);
  }

  /** Returns a full turn that does not repeat its first A-scan. */
  static ScanPath whole(
      FundusPoint centre, double radiusMm, double startDegrees, int way, int ascans) {
    return arc(centre, radiusMm, startDegrees, way * 360.0 * (ascans - 1) / ascans, ascans);
  }

  static ScanPath ellipse(
      FundusPoint centre, double rx, double ry, double startDegrees, double turn, int ascans) {
    double[] x = new double[ascans];
    double[] y = new double[ascans];
    for (int a = 0; a < ascans; a++) {
      double angle = Math.toRadians(startDegrees + turn * a / (ascans - 1));
      x[a] = centre.xMm() + rx * Math.cos(angle);
      y[a] = centre.yMm() + ry * Math.sin(angle);
    }
    return ScanPath.ofPoints(1, ascans, x, y, FRAME);
  }

  /** Returns the paths one after the other as frames. */
  static ScanPath frames(ScanPath... paths) {
    int ascans = paths[0].ascans();
    double[] x = new double[paths.length * ascans];
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      x[i] = paths[i / ascans].xMm(0, i % ascans);
      y[i] = paths[i / ascans].yMm(0, i % ascans);
    }
    return ScanPath.ofPoints(paths.length, ascans, x, y, FRAME);
  }

  /** Returns a surface that depends on the anatomical angle round a centre only. */
  static Surface byAngle(FundusPoint centre, Laterality eye, DoubleUnaryOperator ofDegrees) {
    return (x, y) -> {
      double nasal = (eye == Laterality.RIGHT ? 1 : -1) * (x - centre.xMm());
      double superior = centre.yMm() - y;
      double degrees = 180 - Math.toDegrees(Math.atan2(superior, nasal));
      return ofDegrees.applyAsDouble(degrees);
    };
  }

  /** Returns a right eye's profile of a function of the angle in degrees. */
  static CircleProfile profile(DoubleUnaryOperator ofDegrees) {
    double[] values = new double[CircleProfile.SAMPLES];
    for (int i = 0; i < values.length; i++) {
      values[i] = ofDegrees.applyAsDouble(i * 360.0 / values.length);
    }
    return profile(values);
  }

  static CircleProfile profile(double[] values) {
    return new CircleProfile(
        Scans.identity("2.25.12"),
        Laterality.RIGHT,
        Layer.ILM_BM,
        3.46,
        new FundusPoint(0, 0),
        ProfileSource.CIRCLE_SCAN,
        AngleZero.HORIZONTAL,
        values);
  }

  /**
   * Returns a profile whose arcs have the means given: in each arc 1 - cos of one period, which is
   * 0 on the arc's borders and has the mean 1.
   */
  static CircleProfile ofMeans(ArcScheme scheme, double... means) {
    return profile(
        degrees -> {
          for (int k = 0; k < means.length; k++) {
            Arc arc = scheme.arcs().get(k);
            double past = ((degrees - arc.fromDegrees()) % 360 + 360) % 360;
            if (past < arc.widthDegrees()) {
              return means[k] * (1 - Math.cos(2 * Math.PI * past / arc.widthDegrees()));
            }
          }
          throw new AssertionError("no arc at " + degrees);
        });
  }

  static double sinusoid(double degrees) {
    return 95
        + 30 * Math.cos(Math.toRadians(2 * (degrees - 95)))
        + 12 * Math.sin(Math.toRadians(degrees + 20));
  }
}

package org.isopach.segment;

import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;

/** Scans that must not be measured, or not everywhere, made from a good one or from nothing. */
final class BadScans {
  /** Detector noise and steps of the log display of the phantom, docs/phantom.md. */
  private static final double NOISE_GREY = 22;

  private static final double GREY_PER_DB = 5;

  private BadScans() {}

  static OctScan inverted(OctScan scan) {
    return Scans.withFrames(
        scan,
        (frame, into) -> {
          scan.frames().read(frame, into);
          for (int i = 0; i < into.length; i++) {
            into[i] = (float) (scan.grey().high() + scan.grey().low() - into[i]);
          }
        });
  }

  /** Returns the scan with every grey multiplied, cut at full brightness. */
  static OctScan amplified(OctScan scan, double gain) {
    return Scans.withFrames(
        scan,
        (frame, into) -> {
          scan.frames().read(frame, into);
          for (int i = 0; i < into.length; i++) {
            into[i] = (float) Math.min(scan.grey().high(), Math.rint(gain * into[i]));
          }
        });
  }

  /** Returns the scan with depth running along the rows; its path no longer fits and is lost. */
  static OctScan turned(OctScan scan) {
    int ascans = scan.size().ascans();
    int depths = scan.size().depths();
    FrameSource frames =
        (frame, into) -> {
          float[] picture = new float[into.length];
          scan.frames().read(frame, picture);
          for (int d = 0; d < depths; d++) {
            for (int a = 0; a < ascans; a++) {
              into[a * depths + d] = picture[d * ascans + a];
            }
          }
        };
    ScanSize turned =
        new ScanSize(scan.size().frames(), /* ascans= */ depths, /* depths= */ ascans);
    return sized(scan, turned, frames);
  }

  /**
   * Returns frames of a cornea: an arc of 7.8 mm radius (mean anterior radius of adults, from
   * memory) and 0.54 mm thickness, bright at its front, dark behind.
   */
  static OctScan cornea(OctScan like, double widthMm) {
    int ascans = like.size().ascans();
    double pixelUm = like.axial().micrometresPerPixel();
    return Scans.withFrames(
        like,
        (frame, into) -> {
          Random random = new Random(frame);
          for (int i = 0; i < into.length; i++) {
            double x = ((i % ascans) / (ascans - 1.0) - 0.5) * widthMm;
            double below = i / ascans - 40 - x * x / (2 * 7.8) * 1000 / pixelUm;
            double tissue = below < 0 || below > 540 / pixelUm ? 0 : below < 14 ? 130 : 65;
            double grey = NOISE_GREY + tissue + 10 * random.nextGaussian();
            into[i] = (float) Math.max(0, Math.min(255, Math.rint(grey)));
          }
        });
  }

  /**
   * Returns a part of a deeper scan.
   *
   * @param first the depth that becomes the first row
   * @param fold whether what lies above it is folded back, the powers of both added up
   */
  static OctScan part(OctScan deep, int first, int depths, boolean fold) {
    int ascans = deep.size().ascans();
    FrameSource frames =
        (frame, into) -> {
          float[] picture = new float[deep.size().framePixels()];
          deep.frames().read(frame, picture);
          for (int i = 0; i < into.length; i++) {
            int d = i / ascans;
            double power = power(picture[(first + d) * ascans + i % ascans]);
            if (fold && d < first) {
              power += power(picture[(first - 1 - d) * ascans + i % ascans]) - 1;
            }
            double grey = NOISE_GREY + GREY_PER_DB * 10 * Math.log10(Math.max(0.1, power));
            into[i] = (float) Math.max(0, Math.min(255, Math.rint(grey)));
          }
        };
    return sized(deep, new ScanSize(deep.size().frames(), ascans, depths), frames);
  }

  private static double power(double grey) {
    return Math.pow(10, (grey - NOISE_GREY) / GREY_PER_DB / 10);
  }

  private static OctScan sized(OctScan scan, ScanSize size, FrameSource frames) {
    boolean fits = size.ascans() == scan.size().ascans();
    return new OctScan(
        scan.identity(),
        scan.document(),
        scan.laterality(),
        size,
        scan.axial(),
        fits ? scan.path() : Optional.empty(),
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }
}

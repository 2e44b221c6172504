package org.isopach.dicom.read;

import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Pixel Spacing (0028,0030) of a tomography's frames, from the Pixel Measures macro (DICOM PS3.3,
 * section C.7.6.16.2.1): the first value is mm from row to row, which is depth; the second is mm
 * from column to column, which is along the scan.
 */
final class PixelMeasures {
  private static final double SAME = 1e-6;
  private static final double DEEPEST_MM = 40;

  private final FunctionalGroups groups;
  private final int frames;

  PixelMeasures(FunctionalGroups groups, int frames) {
    this.groups = groups;
    this.frames = frames;
  }

  /**
   * Returns the scale of depth that all frames share.
   *
   * @param rows pixels along each A-scan; a depth range longer than any eye is refused
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when a spacing is no pair of numbers, NO_AXIAL_SPACING
   *     when it is missing, empty, not positive, impossible, or differs between frames
   */
  AxialScale axial(int rows) throws ObjectDefect {
    double first = depthMm(0);
    for (int f = 1; f < frames; f++) {
      double mm = depthMm(f);
      if (Math.abs(mm - first) > SAME * first) {
        throw new ObjectDefect(
            FindingKind.NO_AXIAL_SPACING,
            "depth spacing differs between frames: " + first + " and " + mm + " mm");
      }
    }
    if (first * rows > DEEPEST_MM) {
      throw new ObjectDefect(
          FindingKind.NO_AXIAL_SPACING,
          rows + " rows of " + first + " mm are deeper than an eye is long");
    }
    return AxialScale.ofMicrometresPerPixel(first * 1000);
  }

  /** Returns mm from A-scan to A-scan of a frame, or empty when not stated or not positive. */
  OptionalDouble alongMm(int frame) {
    List<Double> pair = field(frame).values();
    return pair.size() == 2 && positive(pair.get(1))
        ? OptionalDouble.of(pair.get(1))
        : OptionalDouble.empty();
  }

  /** Returns the mean over all frames of {@link #alongMm}, or empty when any frame has none. */
  OptionalDouble meanAlongMm() {
    double sum = 0;
    for (int f = 0; f < frames; f++) {
      OptionalDouble mm = alongMm(f);
      if (mm.isEmpty()) {
        return mm;
      }
      sum += mm.getAsDouble();
    }
    return OptionalDouble.of(sum / frames);
  }

  /** Returns what a frame says about its spacing, in words. */
  String words(int frame) {
    return "Pixel Spacing (0028,0030) of frame " + (frame + 1) + " is " + field(frame).words();
  }

  private double depthMm(int frame) throws ObjectDefect {
    NumberField field = field(frame);
    List<Double> pair = field.values();
    boolean malformed = field instanceof NumberField.Malformed;
    if (malformed || (!pair.isEmpty() && pair.size() != 2)) {
      throw new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, words(frame));
    }
    if (pair.isEmpty() || !positive(pair.get(0))) {
      throw new ObjectDefect(FindingKind.NO_AXIAL_SPACING, words(frame));
    }
    return pair.get(0);
  }

  private NumberField field(int frame) {
    Dataset item =
        groups.macro(frame, Tags.PIXEL_MEASURES_SEQUENCE).orElse(Dataset.builder().build());
    return NumberField.of(item, Tags.PIXEL_SPACING);
  }

  private static boolean positive(double value) {
    return value > 0 && value < Double.POSITIVE_INFINITY;
  }
}

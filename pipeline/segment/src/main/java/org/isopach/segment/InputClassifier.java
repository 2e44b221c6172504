package org.isopach.segment;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.quality.QualityRules;

/**
 * Tells scans that are no retina, or none that may be measured, by simple figures of whole frames.
 * Where each limit comes from is in {@code docs/measurements.md}.
 */
final class InputClassifier {
  private static final double LEAST_CONTRAST_TO_NOISE = 2.2;
  private static final double MOST_MEDIAN_PLACE = 0.6;
  private static final double MOST_COLUMNS_TO_ROWS = 2.5;
  private static final double MOST_CONVEX_PER_MM = 0.07;
  private static final double LEAST_WIDTH_MM = 2;
  private static final int MOST_LOOKS = 9;
  private static final double COARSEST_MICROMETRES = 20;
  private static final double LEAST_RANGE_MICROMETRES = 250;

  private final LoadedScan loaded;

  InputClassifier(LoadedScan loaded) {
    this.loaded = loaded;
  }

  /** Returns why the scan is refused before any search, or empty. */
  Optional<Finding> beforeSearch() {
    if (loaded.anyReadable() && median(loaded::saturated) > QualityRules.DEFAULT.mostSaturated()) {
      return finding(
          FindingKind.SATURATED,
          "%.0f %% of the pixels are at full brightness",
          100 * median(loaded::saturated));
    }
    if (loaded.constant()) {
      return finding(FindingKind.CONSTANT_IMAGE, "every pixel has the same grey");
    }
    if (loaded.usableFrames().length == 0) {
      return Optional.empty();
    }
    return scale().or(this::picture);
  }

  private Optional<Finding> scale() {
    double pixel = loaded.scan().axial().micrometresPerPixel();
    if (pixel > COARSEST_MICROMETRES) {
      return finding(
          FindingKind.DEPTH_TOO_COARSE,
          "a pixel is %.1f µm deep, %.0f µm is the most",
          pixel,
          COARSEST_MICROMETRES);
    }
    double range = pixel * loaded.scan().size().depths();
    if (range < LEAST_RANGE_MICROMETRES) {
      return finding(
          FindingKind.NO_RETINA,
          "the frames are %.0f µm deep, a retina needs %.0f",
          range,
          LEAST_RANGE_MICROMETRES);
    }
    return Optional.empty();
  }

  private Optional<Finding> picture() {
    List<PictureCharacter> characters = characters();
    double place = median(characters, PictureCharacter::medianPlace);
    if (place > MOST_MEDIAN_PLACE) {
      return finding(
          FindingKind.GREY_INVERTED,
          "the median grey lies %.2f of the way from dark to bright, %.2f is the most",
          place,
          MOST_MEDIAN_PLACE);
    }
    if (loaded.contrastToNoise() < LEAST_CONTRAST_TO_NOISE) {
      return finding(
          FindingKind.NO_RETINA,
          "contrast is %.1f times the noise, %.1f is needed",
          loaded.contrastToNoise(),
          LEAST_CONTRAST_TO_NOISE);
    }
    double ratio = median(characters, PictureCharacter::columnsToRows);
    if (ratio > MOST_COLUMNS_TO_ROWS) {
      return finding(
          FindingKind.ROTATED,
          "brightness changes along the scan and hardly in depth (variances %.1f to 1)",
          ratio);
    }
    return Optional.empty();
  }

  /** Returns the characters of some frames, spread evenly over the usable ones. */
  private List<PictureCharacter> characters() {
    int[] usable = loaded.usableFrames();
    int looks = Math.min(MOST_LOOKS, usable.length);
    return IntStream.range(0, looks)
        .map(i -> usable[(int) ((i + 0.5) * usable.length / looks)])
        .mapToObj(loaded::character)
        .toList();
  }

  private static double median(
      List<PictureCharacter> characters, ToDoubleFunction<PictureCharacter> figure) {
    double[] figures = characters.stream().mapToDouble(figure).sorted().toArray();
    return figures[figures.length / 2];
  }

  /** Returns why the scan is refused for the shape of the surface found, or empty. */
  Optional<Finding> afterLook(List<int[]> innerPaths) {
    Optional<ScanPath> path =
        loaded
            .scan()
            .path()
            .filter(p -> p.pattern() != ScanPattern.CIRCLE && p.pattern() != ScanPattern.IRREGULAR);
    if (path.isEmpty()) {
      return Optional.empty();
    }
    double width = path.get().ascanSpacingMm() * (path.get().ascans() - 1);
    if (width < LEAST_WIDTH_MM) {
      return Optional.empty();
    }
    double rowMm = loaded.grid().micrometresPerRow() / 1000;
    double[] convexities =
        innerPaths.stream()
            .mapToDouble(inner -> Curvature.perMm(inner, width, rowMm))
            .sorted()
            .toArray();
    double convex = convexities[convexities.length / 2];
    if (convex <= MOST_CONVEX_PER_MM) {
      return Optional.empty();
    }
    return finding(
        FindingKind.ANTERIOR_SEGMENT,
        "the surface bulges towards the instrument with a radius of %.1f mm, as a cornea does",
        1 / convex);
  }

  /** The median over frames that are looked at: usable ones, or all readable ones if none is. */
  private double median(IntToDoubleFunction figure) {
    int[] frames = loaded.usableFrames();
    if (frames.length == 0) {
      frames = loaded.readableFrames();
    }
    double[] figures = Arrays.stream(frames).mapToDouble(figure).sorted().toArray();
    return figures[figures.length / 2];
  }

  private Optional<Finding> finding(FindingKind kind, String words, Object... figures) {
    return Optional.of(
        new Finding(
            kind, loaded.scan().document().location(), String.format(Locale.ROOT, words, figures)));
  }
}

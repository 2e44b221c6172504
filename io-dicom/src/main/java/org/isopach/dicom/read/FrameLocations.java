package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Places frames by Ophthalmic Frame Location (DICOM PS3.3, section C.8.17.10): pairs of row and
 * column on a fundus image, (0, 0) being the outer corner of its first pixel.
 *
 * <p>LINEAR has two points, taken as the centres of the first and the last A-scan with the others
 * evenly between; NONLINEAR has one point for each A-scan.
 */
final class FrameLocations {
  private final FunctionalGroups groups;
  private final int frames;
  private final int ascans;

  FrameLocations(FunctionalGroups groups, int frames, int ascans) {
    this.groups = groups;
    this.frames = frames;
    this.ascans = ascans;
  }

  /** Returns whether the first frame has a location at all. */
  boolean present() {
    return !groups.macroItems(0, Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE).isEmpty();
  }

  /** Returns whether any frame says that it is a picture across the depth. */
  boolean anyTransverse() {
    for (int f = 0; f < frames; f++) {
      for (Dataset item : groups.macroItems(f, Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE)) {
        if (item.text(Tags.OPHTHALMIC_IMAGE_ORIENTATION).orElse("").equals("TRANSVERSE")) {
          return true;
        }
      }
    }
    return false;
  }

  /**
   * Returns the frames' places.
   *
   * @param localizers the fundus images of the folder by SOP instance UID
   * @param measures the spacing along the scan, for when the image or its scale is missing
   * @param remarks receives a note when the scale had to be derived
   * @throws Unusable when the locations are missing or cannot be used; says why
   */
  Placement place(Map<String, Localizer> localizers, PixelMeasures measures, Remarks remarks)
      throws Unusable {
    String image = chosenImage(localizers);
    List<double[]> lines = new ArrayList<>(frames);
    for (int f = 0; f < frames; f++) {
      double[] line = points(f, image);
      if (!(length(line) > 0)) {
        throw new Unusable("Ophthalmic Frame Location of frame " + (f + 1) + " has no length");
      }
      lines.add(line);
    }
    Optional<Localizer> found = Optional.ofNullable(localizers.get(image));
    ReferenceImage reference = reference(image, found, lines, measures, remarks);
    FundusFrame frame = new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, image);
    return new Placement(path(lines, reference, frame), Optional.of(reference));
  }

  private String chosenImage(Map<String, Localizer> localizers) throws Unusable {
    Set<String> images = new LinkedHashSet<>();
    for (Dataset item : groups.macroItems(0, Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE)) {
      images.add(item.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElse(""));
    }
    for (String image : images) {
      if (localizers.containsKey(image) && localizers.get(image).hasScale()) {
        return image;
      }
    }
    return images.stream()
        .findFirst()
        .orElseThrow(() -> new Unusable("Ophthalmic Frame Location is missing"));
  }

  /** Returns row and column of both ends, or of every A-scan, one after the other. */
  private double[] points(int f, String image) throws Unusable {
    String name = "Ophthalmic Frame Location of frame " + (f + 1);
    for (Dataset item : groups.macroItems(f, Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE)) {
      if (item.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElse("").equals(image)) {
        NumberField field = NumberField.of(item, Tags.REFERENCE_COORDINATES);
        boolean finite = field.values().stream().allMatch(v -> Math.abs(v) < 1e9);
        int count = field.values().size();
        String shape = item.text(Tags.OPHTHALMIC_IMAGE_ORIENTATION).orElse("");
        if (finite && shape.equals("LINEAR") && count == 4) {
          return array(field.values());
        }
        if (finite && shape.equals("NONLINEAR") && count == 2 * ascans) {
          return array(field.values());
        }
        String numbers = field.values().isEmpty() ? field.words() : count + " numbers";
        throw new Unusable(
            name + " is \"" + shape + "\" with " + numbers + " for " + ascans + " A-scans");
      }
    }
    throw new Unusable(name + " is missing or on another image");
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  private ReferenceImage reference(
      String image,
      Optional<Localizer> found,
      List<double[]> lines,
      PixelMeasures measures,
      Remarks remarks)
      throws Unusable {
    if (found.isPresent() && found.get().hasScale()) {
      return found.get().reference();
    }
    int rows = found.map(Localizer::rows).orElse(0);
    int columns = found.map(Localizer::columns).orElse(0);
    String sopClass = found.map(Localizer::sopClassUid).orElse(referencedClass());
    String study = found.map(Localizer::studyUid).orElse("");
    String series = found.map(Localizer::seriesUid).orElse("");
    double mm = derivedScale(lines, measures);
    remarks.add(
        FindingKind.REFERENCE_IMAGE_MISSING,
        (found.isPresent()
                ? "the fundus image " + image + " has no Pixel Spacing"
                : "the fundus image " + (image.isEmpty() ? "is not named" : image + " is missing"))
            + "; its scale was taken from the spacing along the scan: "
            + Rounded.of(mm)
            + " mm per pixel");
    return new ReferenceImage(sopClass, image, rows, columns, mm, mm, study, series, false);
  }

  private String referencedClass() {
    return groups
        .macro(0, Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE)
        .flatMap(item -> item.text(Tags.REFERENCED_SOP_CLASS_UID))
        .orElse("");
  }

  /** Returns mm per pixel of the image from mm along the scan and the frames' lengths in pixels. */
  private double derivedScale(List<double[]> lines, PixelMeasures measures) throws Unusable {
    double mm = 0;
    double pixels = 0;
    for (int f = 0; f < frames; f++) {
      OptionalDouble along = measures.alongMm(f);
      if (along.isEmpty()) {
        throw new Unusable("the fundus image has no usable scale and " + measures.words(f));
      }
      mm += along.getAsDouble() * (ascans - 1);
      pixels += length(lines.get(f));
    }
    return mm / pixels;
  }

  private static double length(double[] points) {
    double sum = 0;
    for (int i = 2; i < points.length; i += 2) {
      sum += Math.hypot(points[i] - points[i - 2], points[i + 1] - points[i - 1]);
    }
    return sum;
  }

  private ScanPath path(List<double[]> lines, ReferenceImage reference, FundusFrame frame) {
    if (lines.stream().allMatch(line -> line.length == 4)) {
      return ScanPath.ofLines(
          lines.stream().map(line -> point(line, 0, reference)).toList(),
          lines.stream().map(line -> point(line, 1, reference)).toList(),
          ascans,
          frame);
    }
    double[] x = new double[frames * ascans];
    double[] y = new double[frames * ascans];
    for (int f = 0; f < frames; f++) {
      for (int j = 0; j < ascans; j++) {
        FundusPoint point = ascan(lines.get(f), j, reference);
        x[f * ascans + j] = point.xMm();
        y[f * ascans + j] = point.yMm();
      }
    }
    return ScanPath.ofPoints(frames, ascans, x, y, frame);
  }

  private FundusPoint ascan(double[] line, int j, ReferenceImage reference) {
    if (line.length == 2 * ascans) {
      return point(line, j, reference);
    }
    FundusPoint start = point(line, 0, reference);
    FundusPoint end = point(line, 1, reference);
    double fromStart = (double) j / (ascans - 1);
    double fromEnd = (double) (ascans - 1 - j) / (ascans - 1);
    return new FundusPoint(
        fromEnd * start.xMm() + fromStart * end.xMm(),
        fromEnd * start.yMm() + fromStart * end.yMm());
  }

  private static FundusPoint point(double[] line, int i, ReferenceImage reference) {
    return new FundusPoint(
        line[2 * i + 1] * reference.columnSpacingMm(), line[2 * i] * reference.rowSpacingMm());
  }
}

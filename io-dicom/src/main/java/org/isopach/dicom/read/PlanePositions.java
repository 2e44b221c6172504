package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.dicom.data.Tags;

/**
 * Places frames in the patient's space by Plane Position and Plane Orientation (Patient) (DICOM
 * PS3.3, sections C.7.6.16.2.3 and C.7.6.16.2.4).
 *
 * <p>The row direction runs along the scan, the column direction into depth; +X points to the
 * patient's left, +Y backwards, +Z to the head. Fundus x is +X, since the patient's left is at the
 * examiner's right; fundus y is -Z.
 */
final class PlanePositions {
  private static final double UNIT_TOLERANCE = 0.01;
  private static final double DEPTH_COSINE = 0.7;

  private final FunctionalGroups groups;
  private final int frames;
  private final int ascans;

  PlanePositions(FunctionalGroups groups, int frames, int ascans) {
    this.groups = groups;
    this.frames = frames;
    this.ascans = ascans;
  }

  /** Returns whether any frame says that its rows run from the back of the eye to the front. */
  boolean anyForwards() {
    for (int f = 0; f < frames; f++) {
      List<Double> v = orientation(f).values();
      if (v.size() == 6 && v.get(4) < -DEPTH_COSINE) {
        return true;
      }
    }
    return false;
  }

  /**
   * Returns the frames' places.
   *
   * @param frameOfReference UID, empty when absent
   * @throws Unusable when they are missing or cannot be used; says why
   */
  Placement place(PixelMeasures measures, String frameOfReference) throws Unusable {
    List<FundusPoint> starts = new ArrayList<>(frames);
    List<FundusPoint> ends = new ArrayList<>(frames);
    for (int f = 0; f < frames; f++) {
      List<Double> position = position(f);
      List<Double> direction = direction(f);
      OptionalDouble along = measures.alongMm(f);
      if (along.isEmpty()) {
        throw new Unusable(measures.words(f) + ", so the length along the scan is unknown");
      }
      double length = along.getAsDouble() * (ascans - 1);
      FundusPoint start = new FundusPoint(position.get(0), -position.get(2));
      starts.add(start);
      ends.add(start.plus(new FundusPoint(length * direction.get(0), -length * direction.get(2))));
    }
    FundusFrame frame = new FundusFrame(FundusFrame.Kind.PATIENT, frameOfReference);
    return new Placement(ScanPath.ofLines(starts, ends, ascans, frame), Optional.empty());
  }

  private List<Double> position(int f) throws Unusable {
    NumberField field =
        groups
            .macro(f, Tags.PLANE_POSITION_SEQUENCE)
            .map(item -> NumberField.of(item, Tags.IMAGE_POSITION_PATIENT))
            .orElse(new NumberField.Missing());
    if (field.values().size() != 3 || !finite(field.values())) {
      throw new Unusable(
          "Image Position (Patient) (0020,0032) of frame " + (f + 1) + " is " + field.words());
    }
    return field.values();
  }

  private List<Double> direction(int f) throws Unusable {
    NumberField field = orientation(f);
    List<Double> v = field.values();
    String name = "Image Orientation (Patient) (0020,0037) of frame " + (f + 1);
    if (v.size() != 6 || !finite(v)) {
      throw new Unusable(name + " is " + field.words());
    }
    double dot = v.get(0) * v.get(3) + v.get(1) * v.get(4) + v.get(2) * v.get(5);
    boolean unit = isUnit(v.subList(0, 3)) && isUnit(v.subList(3, 6));
    if (!unit || Math.abs(dot) > UNIT_TOLERANCE) {
      throw new Unusable(name + " is not two unit vectors at a right angle: " + v);
    }
    if (v.get(4) < DEPTH_COSINE) {
      throw new Unusable(name + " does not run into the depth of the eye: " + v);
    }
    return v;
  }

  private NumberField orientation(int f) {
    return groups
        .macro(f, Tags.PLANE_ORIENTATION_SEQUENCE)
        .map(item -> NumberField.of(item, Tags.IMAGE_ORIENTATION_PATIENT))
        .orElse(new NumberField.Missing());
  }

  private static boolean isUnit(List<Double> v) {
    double norm = Math.sqrt(v.get(0) * v.get(0) + v.get(1) * v.get(1) + v.get(2) * v.get(2));
    return Math.abs(norm - 1) <= UNIT_TOLERANCE;
  }

  private static boolean finite(List<Double> values) {
    return values.stream().allMatch(v -> Math.abs(v) < 1e9);
  }
}

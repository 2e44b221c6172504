package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.cross.FieldPlace;
import org.isopach.analysis.cross.FieldValues;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads Parametric Maps (DICOM PS3.3, A.75), ours and others': one map for each frame, of float,
 * double or 8 or 16-bit pixels, in a length.
 *
 * <p>A frame lies where its Plane Position and Orientation say, if that is the plane of the fundus
 * as the examiner sees it; mirrored and turned axes are taken as they are.
 */
public final class ParametricMapReader {
  private static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.30";
  private static final double TOLERANCE = 0.01;
  private static final double GREATEST_MM = 1e6;

  private final Dataset attributes;
  private final FunctionalGroups groups;

  private ParametricMapReader(Dataset attributes) {
    this.attributes = attributes;
    this.groups = FunctionalGroups.of(attributes);
  }

  /**
   * Returns the maps of an object in the order of its frames.
   *
   * @throws ObjectDefect when the file is no parametric map, or not whole, or not in um or mm
   * @throws IOException when the file cannot be read
   */
  public static List<PlacedMap> read(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    if (object.attributes().text(Tags.SOP_CLASS_UID).filter(SOP_CLASS_UID::equals).isEmpty()) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no parametric map");
    }
    return new ParametricMapReader(object.attributes()).maps(object);
  }

  private List<PlacedMap> maps(ParsedObject object) throws IOException, ObjectDefect {
    MapPixels pixels = MapPixels.open(object);
    List<PlacedMap> maps = new ArrayList<>();
    for (int f = 0; f < pixels.frames(); f++) {
      maps.add(map(f, pixels));
    }
    return List.copyOf(maps);
  }

  private PlacedMap map(int frame, MapPixels pixels) throws IOException, ObjectDefect {
    RealWorldValues meaning =
        RealWorldValues.of(
            groups.macroItems(frame, Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE), pixels.signed());
    double[] stored = pixels.frame(frame);
    float[] micrometres = new float[stored.length];
    for (int i = 0; i < stored.length; i++) {
      micrometres[i] = (float) meaning.micrometres(stored[i]);
    }
    List<PlacedMap.Anchor> anchors = new ArrayList<>();
    String noPlace = "";
    try {
      String uid = attributes.text(Tags.FRAME_OF_REFERENCE_UID).orElse("");
      anchors.add(new PlacedMap.InFrame(uid, place(frame)));
    } catch (Unusable e) {
      noPlace = e.getMessage();
    }
    Optional<Laterality> eye =
        LateralityReader.read(attributes, groups, pixels.frames(), new Remarks(""));
    return new PlacedMap(
        meaning.quantity(),
        meaning.words(),
        eye,
        sources(groups.macroItems(frame, Tags.DERIVATION_IMAGE_SEQUENCE)),
        new FieldValues(pixels.rows(), pixels.columns(), micrometres),
        anchors,
        noPlace);
  }

  /** Returns the SOP Instance UIDs of the sources that derivations name, in their order. */
  static Set<String> sources(List<Dataset> derivations) {
    Set<String> uids = new LinkedHashSet<>();
    for (Dataset derivation : derivations) {
      for (Dataset source : derivation.items(Tags.SOURCE_IMAGE_SEQUENCE)) {
        source.text(Tags.REFERENCED_SOP_INSTANCE_UID).ifPresent(uids::add);
      }
    }
    return uids;
  }

  private FieldPlace place(int frame) throws Unusable {
    List<Double> first =
        numbers(frame, Tags.PLANE_POSITION_SEQUENCE, Tags.IMAGE_POSITION_PATIENT, 3);
    List<Double> axes =
        numbers(frame, Tags.PLANE_ORIENTATION_SEQUENCE, Tags.IMAGE_ORIENTATION_PATIENT, 6);
    List<Double> spacing = numbers(frame, Tags.PIXEL_MEASURES_SEQUENCE, Tags.PIXEL_SPACING, 2);
    requireFundus(axes);
    if (!(spacing.get(0) > 0 && spacing.get(1) > 0)) {
      throw new Unusable("Pixel Spacing (0028,0030) is " + spacing);
    }
    return new FieldPlace(
        new FundusPoint(first.get(0), 0.0 - first.get(2)),
        step(axes.subList(0, 3), spacing.get(1)),
        step(axes.subList(3, 6), spacing.get(0)));
  }

  private static FundusPoint step(List<Double> axis, double mm) {
    return new FundusPoint(axis.get(0) * mm, 0.0 - axis.get(2) * mm);
  }

  private static void requireFundus(List<Double> v) throws Unusable {
    double dot = v.get(0) * v.get(3) + v.get(1) * v.get(4) + v.get(2) * v.get(5);
    boolean unit = near(v.subList(0, 3)) && near(v.subList(3, 6)) && Math.abs(dot) <= TOLERANCE;
    boolean flat = Math.abs(v.get(1)) <= TOLERANCE && Math.abs(v.get(4)) <= TOLERANCE;
    if (!unit || !flat) {
      throw new Unusable(
          "Image Orientation (Patient) (0020,0037) is not the plane of the fundus: " + v);
    }
  }

  private static boolean near(List<Double> v) {
    double norm = Math.sqrt(v.stream().mapToDouble(d -> d * d).sum());
    return Math.abs(norm - 1) <= TOLERANCE;
  }

  private List<Double> numbers(int frame, int macro, int tag, int count) throws Unusable {
    NumberField field =
        groups
            .macro(frame, macro)
            .map(item -> NumberField.of(item, tag))
            .orElse(new NumberField.Missing());
    if (field.values().size() != count
        || !field.values().stream().allMatch(v -> Math.abs(v) < GREATEST_MM)) {
      throw new Unusable(Tag.name(tag) + " is " + field.words());
    }
    return field.values();
  }
}

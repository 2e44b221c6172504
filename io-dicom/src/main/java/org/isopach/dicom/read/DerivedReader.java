package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/** Tells from its attributes what somebody's object holds; reads no pixel. */
final class DerivedReader {
  private static final Code RIGHT = new Code("24028007", "SCT", "");
  private static final Code LEFT = new Code("7771000", "SCT", "");

  private DerivedReader() {}

  /**
   * Returns what an object is and holds; of a report, each eye by itself.
   *
   * @throws ObjectDefect when a report has no eye or a number that cannot be used
   */
  static List<DerivedObject> read(ParsedObject object, DerivedKind kind) throws ObjectDefect {
    Dataset attributes = object.attributes();
    if (kind != DerivedKind.GRID_REPORT) {
      return List.of(
          made(
              object,
              kind,
              eyes(attributes),
              sources(attributes),
              DerivedHoldings.of(attributes, kind)));
    }
    List<DerivedObject> eyes = new ArrayList<>();
    for (MacularGridReport eye : MacularGridReportReader.of(attributes)) {
      eyes.add(
          made(
              object,
              kind,
              Set.of(eye.laterality()),
              eye.sources(),
              List.of(DerivedHoldings.ofReport(eye))));
    }
    return eyes;
  }

  private static DerivedObject made(
      ParsedObject object,
      DerivedKind kind,
      Set<Laterality> eyes,
      Set<String> sources,
      List<DerivedObject.Held> holds) {
    Dataset attributes = object.attributes();
    return new DerivedObject(
        kind,
        TomographyReader.identity(attributes, new Remarks(object.location())),
        eyes,
        software(attributes),
        object.location(),
        sources,
        attributes.text(Tags.FRAME_OF_REFERENCE_UID).orElse(""),
        holds);
  }

  /** Returns Manufacturer, model and software version, none of them twice. */
  private static String software(Dataset attributes) {
    Set<String> words = new LinkedHashSet<>();
    attributes.text(Tags.MANUFACTURER).ifPresent(words::add);
    attributes.text(Tags.MANUFACTURER_MODEL_NAME).ifPresent(words::add);
    words.addAll(attributes.texts(Tags.SOFTWARE_VERSIONS));
    words.removeIf(String::isBlank);
    return String.join(" ", words);
  }

  /** Returns the eyes that frames, image, series or segments name. */
  private static Set<Laterality> eyes(Dataset attributes) {
    Set<Laterality> eyes = EnumSet.noneOf(Laterality.class);
    FunctionalGroups groups = FunctionalGroups.of(attributes);
    List<Optional<String>> codes = new ArrayList<>();
    codes.add(attributes.text(Tags.LATERALITY));
    codes.add(attributes.text(Tags.IMAGE_LATERALITY));
    for (int f = 0; f < Math.max(1, groups.perFrameItems()); f++) {
      codes.add(
          groups.macro(f, Tags.FRAME_ANATOMY_SEQUENCE).flatMap(g -> g.text(Tags.FRAME_LATERALITY)));
    }
    codes.forEach(code -> code.flatMap(Laterality::ofCode).ifPresent(eyes::add));
    for (Dataset segment : attributes.items(Tags.SEGMENT_SEQUENCE)) {
      for (Dataset region : segment.items(Tags.ANATOMIC_REGION_SEQUENCE)) {
        region.items(Tags.ANATOMIC_REGION_MODIFIER_SEQUENCE).stream()
            .flatMap(modifier -> Code.of(modifier).stream())
            .forEach(side -> addSide(side, eyes));
      }
    }
    return eyes;
  }

  private static void addSide(Code side, Set<Laterality> eyes) {
    if (side.sameAs(RIGHT)) {
      eyes.add(Laterality.RIGHT);
    } else if (side.sameAs(LEFT)) {
      eyes.add(Laterality.LEFT);
    }
  }

  private static Set<String> sources(Dataset attributes) {
    Set<String> sources = new TreeSet<>(ThicknessObjectReader.sources(attributes));
    for (Dataset item : attributes.items(Tags.SOURCE_INSTANCE_SEQUENCE)) {
      item.text(Tags.REFERENCED_SOP_INSTANCE_UID).ifPresent(sources::add);
    }
    FunctionalGroups groups = FunctionalGroups.of(attributes);
    for (int f = 0; f < Math.max(1, groups.perFrameItems()); f++) {
      sources.addAll(
          ParametricMapReader.sources(groups.macroItems(f, Tags.DERIVATION_IMAGE_SEQUENCE)));
    }
    return sources;
  }
}

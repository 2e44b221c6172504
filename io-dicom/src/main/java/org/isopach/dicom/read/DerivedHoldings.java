package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.region.RegionKind;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject.Held;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.LayerCode;
import org.isopach.dicom.derive.RegionCode;
import org.isopach.dicom.derive.SurfaceCode;

/** The things an object has values for, by its own codes and by our names. */
final class DerivedHoldings {
  private static final String ABSOLUTE = "111930";

  private DerivedHoldings() {}

  static Held ofReport(MacularGridReport eye) {
    String words =
        eye.laterality().word()
            + " eye, "
            + eye.values().size()
            + " values, "
            + eye.definition().map(Code::toString).orElse("definition not stated");
    return new Held(words, eye.definition().flatMap(LayerCode::layer).map(Layer::name).orElse(""));
  }

  static List<Held> of(Dataset attributes, DerivedKind kind) {
    return switch (kind) {
      case HEIGHT_MAP, SEGMENTATION -> segments(attributes, kind);
      case THICKNESS_MAP -> List.of(thickness(attributes));
      case PARAMETRIC_MAP -> quantities(attributes);
      case GRID_REPORT -> List.of();
      case EN_FACE -> coded(attributes, Tags.OPHTHALMIC_IMAGE_TYPE_CODE_SEQUENCE);
      case DOCUMENT -> coded(attributes, Tags.CONCEPT_NAME_CODE_SEQUENCE);
    };
  }

  private static List<Held> segments(Dataset attributes, DerivedKind kind) {
    List<Held> held = new ArrayList<>();
    boolean shares =
        attributes.text(Tags.SEGMENTATION_TYPE).filter("FRACTIONAL"::equals).isPresent();
    String fractions =
        shares
            ? " as fractions ("
                + attributes.text(Tags.SEGMENTATION_FRACTIONAL_TYPE).orElse("")
                + ")"
            : "";
    for (Dataset segment : attributes.items(Tags.SEGMENT_SEQUENCE)) {
      Optional<Code> type =
          segment.items(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE).stream()
              .findFirst()
              .flatMap(Code::of);
      Optional<String> ours =
          kind == DerivedKind.HEIGHT_MAP
              ? type.flatMap(SurfaceCode::boundary).map(Boundary::code)
              : type.flatMap(RegionCode::kind).map(RegionKind::code);
      String words = type.map(Code::toString).orElse("a segment without type");
      held.add(new Held(words + fractions, ours.orElse("")));
    }
    return held;
  }

  private static List<Held> coded(Dataset attributes, int tag) {
    return attributes.items(tag).stream()
        .flatMap(item -> Code.of(item).stream())
        .map(code -> new Held(code.toString(), ""))
        .toList();
  }

  private static Held thickness(Dataset attributes) {
    Optional<Code> type =
        attributes.items(Tags.OPHTHALMIC_THICKNESS_MAP_TYPE_CODE_SEQUENCE).stream()
            .findFirst()
            .flatMap(Code::of);
    Optional<Code> definition = ThicknessObjectReader.definition(attributes);
    String words = definition.map(Code::toString).orElse("definition not stated");
    if (type.filter(code -> code.value().equals(ABSOLUTE)).isEmpty()) {
      return new Held(type.map(Code::toString).orElse("type not stated") + " of " + words, "");
    }
    return new Held(words, definition.flatMap(LayerCode::layer).map(Layer::name).orElse(""));
  }

  private static String ours(MapQuantity quantity) {
    String change = quantity.change() ? "change of " : "";
    return quantity.layer().map(layer -> change + layer.name()).orElse("");
  }

  private static List<Held> quantities(Dataset attributes) {
    Set<Held> held = new LinkedHashSet<>();
    FunctionalGroups groups = FunctionalGroups.of(attributes);
    for (int f = 0; f < Math.max(1, groups.perFrameItems()); f++) {
      for (Dataset item : groups.macroItems(f, Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE)) {
        MapQuantity quantity = MapQuantity.of(item);
        String words =
            quantity.code().isPresent()
                ? quantity.title()
                : item.text(Tags.LUT_EXPLANATION).orElse("quantity not stated");
        held.add(new Held(words, ours(quantity)));
      }
    }
    return List.copyOf(held);
  }
}

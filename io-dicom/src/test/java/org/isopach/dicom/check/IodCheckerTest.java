package org.isopach.dicom.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** A valid object is broken in one place at a time; the checker must name that place. */
class IodCheckerTest {
  private static final IodChecker CHECKER = IodChecker.standard();
  private static final Dataset SCAN = SandpiperScan.header();
  private static final PixelContent SCAN_PIXELS = PixelContent.ofBytes(SandpiperScan.PIXEL_BYTES);
  private static final Dataset MAP = SampleMap.object();
  private static final PixelContent MAP_PIXELS = PixelContent.ofBytes(40);

  private static final Dataset PHOTOGRAPH = SandpiperScan.photograph();
  private static final PixelContent PHOTOGRAPH_PIXELS = PixelContent.ofBytes(20);

  private record Change(String name, Consumer<Dataset.Builder> change, Rule rule, String path) {}

  @Test
  void validObjectsAreNotComplainedAbout() {
    assertEquals(List.of(), CHECKER.check(SCAN, SCAN_PIXELS).violations());
    assertEquals(List.of(), CHECKER.check(MAP, MAP_PIXELS).violations());
    assertEquals(List.of(), CHECKER.check(PHOTOGRAPH, PHOTOGRAPH_PIXELS).violations());
  }

  @TestFactory
  Stream<DynamicTest> brokenMaps() {
    Code foreign = new Code("113076", "DCM", "Segmentation");
    Code stray = new Code("111930", "DCM", "Absolute ophthalmic thickness");
    return tests(
        MAP,
        MAP_PIXELS,
        new Change(
            "class",
            b -> b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.3"),
            Rule.OBJECT_KNOWN,
            "(0008,0016)"),
        new Change(
            "no color",
            b -> b.text(Tags.PIXEL_PRESENTATION, Vr.CS, "COLOR_REF"),
            Rule.FORBIDDEN,
            "(0028,1101)"),
        new Change(
            "no palette",
            b -> b.remove(Tags.RED_PALETTE_COLOR_LOOKUP_TABLE_DATA),
            Rule.PRESENCE,
            "(0028,1201)"),
        new Change(
            "color reference",
            b -> b.text(Tags.PIXEL_PRESENTATION, Vr.CS, "COLOR_REF"),
            Rule.PRESENCE,
            "(0028,0304)"),
        new Change(
            "stray reference",
            b -> b.text(Tags.REFERENCED_COLOR_PALETTE_INSTANCE_UID, Vr.UI, "1.2"),
            Rule.FORBIDDEN,
            "(0028,0304)"),
        new Change(
            "modality", b -> b.text(Tags.MODALITY, Vr.CS, "OPT"), Rule.ENUMERATION, "(0008,0060)"),
        new Change(
            "both eyes",
            b -> b.text(Tags.IMAGE_LATERALITY, Vr.CS, "B"),
            Rule.ENUMERATION,
            "(0020,0062)"),
        new Change(
            "signed",
            b -> b.numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 1),
            Rule.ENUMERATION,
            "(0028,0103)"),
        new Change(
            "vr",
            b -> b.numbers(Tags.PIXEL_SPACING, Vr.FD, 0.1, 0.1),
            Rule.REPRESENTATION,
            "(0028,0030)"),
        new Change(
            "vm", b -> b.text(Tags.PIXEL_SPACING, Vr.DS, "0.1"), Rule.MULTIPLICITY, "(0028,0030)"),
        new Change(
            "definition missing",
            b -> b.remove(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE),
            Rule.PRESENCE,
            "(0022,1445)"),
        new Change(
            "not retinal",
            b -> b.text(Tags.IMAGE_TYPE, Vr.CS, "DERIVED", "PRIMARY"),
            Rule.FORBIDDEN,
            "(0022,1445)"),
        new Change(
            "two definitions",
            b ->
                b.items(
                    Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE,
                    MAP.items(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE).get(0),
                    MAP.items(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE).get(0)),
            Rule.ITEM_COUNT,
            "(0022,1445)"),
        new Change(
            "foreign code",
            b -> b.items(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE, foreign.toItem()),
            Rule.CODE_ALLOWED,
            "(0022,1445)[1]"),
        new Change(
            "another region",
            b -> b.items(Tags.ANATOMIC_REGION_SEQUENCE, foreign.toItem()),
            Rule.CODE_ALLOWED,
            "(0008,2218)[1]"),
        new Change(
            "no meaning",
            b ->
                b.items(
                    Tags.ANATOMIC_REGION_SEQUENCE,
                    MAP.items(Tags.ANATOMIC_REGION_SEQUENCE).get(0).toBuilder()
                        .remove(Tags.CODE_MEANING)
                        .build()),
            Rule.CODE_COMPLETE,
            "(0008,2218)[1]"),
        new Change(
            "no scheme",
            b ->
                b.items(
                    Tags.ANATOMIC_REGION_SEQUENCE,
                    MAP.items(Tags.ANATOMIC_REGION_SEQUENCE).get(0).toBuilder()
                        .remove(Tags.CODING_SCHEME_DESIGNATOR)
                        .build()),
            Rule.CODE_COMPLETE,
            "(0008,2218)[1]"),
        new Change(
            "no normals",
            b ->
                b.items(
                    Tags.OPHTHALMIC_THICKNESS_MAP_TYPE_CODE_SEQUENCE,
                    new Code("111932", "DCM", "Thickness deviation from normative data").toItem()),
            Rule.PRESENCE,
            "(0022,1443)"),
        new Change(
            "no source", b -> b.remove(Tags.SOURCE_IMAGE_SEQUENCE), Rule.PRESENCE, "(0008,2112)"),
        new Change(
            "source empty", b -> b.items(Tags.SOURCE_IMAGE_SEQUENCE), Rule.VALUE, "(0008,2112)"),
        new Change(
            "no reference image",
            b -> b.remove(Tags.REFERENCED_INSTANCE_SEQUENCE),
            Rule.PRESENCE,
            "(0008,114A)"),
        new Change(
            "no landmark",
            b -> b.remove(Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT),
            Rule.PRESENCE,
            "(0022,1463)"),
        new Change(
            "no opt",
            b -> b.remove(Tags.RELEVANT_OPT_ATTRIBUTES_SEQUENCE),
            Rule.PRESENCE,
            "(0022,1472)"),
        new Change(
            "slope",
            inMapping(i -> i.remove(Tags.REAL_WORLD_VALUE_SLOPE)),
            Rule.PRESENCE,
            "(0040,9096)[1]/(0040,9225)"),
        new Change(
            "first",
            inMapping(i -> i.remove(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED)),
            Rule.PRESENCE,
            "(0040,9096)[1]/(0040,9216)"),
        new Change(
            "range",
            inMapping(i -> i.numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, 0)),
            Rule.PIXELS,
            "(0040,9096)[1]/(0040,9211)"),
        new Change(
            "unit",
            inMapping(i -> i.items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, stray.toItem())),
            Rule.CODE_ALLOWED,
            "(0040,9096)[1]/(0040,08EA)[1]"),
        new Change(
            "lossy",
            b -> b.text(Tags.LOSSY_IMAGE_COMPRESSION, Vr.CS, "01"),
            Rule.PRESENCE,
            "(0028,2112)"),
        new Change("rows", b -> b.numbers(Tags.ROWS, Vr.US, 3), Rule.PIXELS, "(7FE0,0010)"),
        new Change("bits", b -> b.numbers(Tags.BITS_STORED, Vr.US, 17), Rule.PIXELS, "(0028,0101)"),
        new Change("high bit", b -> b.numbers(Tags.HIGH_BIT, Vr.US, 7), Rule.PIXELS, "(0028,0102)"),
        new Change(
            "palette length",
            b -> b.numbers(Tags.RED_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR, Vr.US, 7, 1, 16),
            Rule.PIXELS,
            "(0028,1201)"),
        new Change(
            "quality",
            b -> b.items(0x00221470, Dataset.builder().build()),
            Rule.PRESENCE,
            "(0022,1470)[1]/(0040,A043)"));
  }

  @TestFactory
  Stream<DynamicTest> brokenScans() {
    int perFrame = Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE;
    List<Dataset> frames = SCAN.items(perFrame);
    Dataset withoutContent = frames.get(1).toBuilder().remove(Tags.FRAME_CONTENT_SEQUENCE).build();
    Dataset inBoth =
        frames.get(1).toBuilder()
            .items(Tags.PIXEL_MEASURES_SEQUENCE, Dataset.builder().build())
            .build();
    Dataset content = frames.get(1).items(Tags.FRAME_CONTENT_SEQUENCE).get(0);
    Dataset twoIndices =
        frames.get(1).toBuilder()
            .items(
                Tags.FRAME_CONTENT_SEQUENCE,
                content.toBuilder().numbers(Tags.DIMENSION_INDEX_VALUES, Vr.UL, 1, 2).build())
            .build();
    Dataset location = frames.get(1).items(Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE).get(0);
    Dataset oddPoints =
        frames.get(1).toBuilder()
            .items(
                Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE,
                location.toBuilder().numbers(Tags.REFERENCE_COORDINATES, Vr.FL, 1, 2, 3).build())
            .build();
    return tests(
        SCAN,
        SCAN_PIXELS,
        new Change(
            "a frame less", b -> b.items(perFrame, frames.get(0)), Rule.ITEM_COUNT, "(5200,9230)"),
        new Change(
            "group missing",
            b -> b.items(perFrame, frames.get(0), withoutContent),
            Rule.FUNCTIONAL_GROUP,
            "(0020,9111)"),
        new Change(
            "group twice",
            b -> b.items(perFrame, frames.get(0), inBoth),
            Rule.FUNCTIONAL_GROUP,
            "(0028,9110)"),
        new Change(
            "no measures",
            inShared(i -> i.remove(Tags.PIXEL_MEASURES_SEQUENCE)),
            Rule.FUNCTIONAL_GROUP,
            "(0028,9110)"),
        new Change(
            "no orientation",
            b -> {
              b.text(Tags.OPHTHALMIC_VOLUMETRIC_PROPERTIES_FLAG, Vr.CS, "YES");
              inShared(i -> i.remove(Tags.PLANE_ORIENTATION_SEQUENCE)).accept(b);
            },
            Rule.FUNCTIONAL_GROUP,
            "(0020,9116)"),
        new Change(
            "two indices",
            b -> b.items(perFrame, frames.get(0), twoIndices),
            Rule.MULTIPLICITY,
            "(5200,9230)[2]/(0020,9111)[1]/(0020,9157)"),
        new Change(
            "odd coordinates",
            b -> b.items(perFrame, frames.get(0), oddPoints),
            Rule.MULTIPLICITY,
            "(5200,9230)[2]/(0022,0031)[1]/(0022,0032)"),
        new Change(
            "no frame of reference",
            b -> b.remove(Tags.FRAME_OF_REFERENCE_UID),
            Rule.PRESENCE,
            "(0020,0052)"),
        new Change(
            "no synchronization",
            b -> {
              b.remove(Tags.SYNCHRONIZATION_FRAME_OF_REFERENCE_UID);
              b.remove(Tags.SYNCHRONIZATION_TRIGGER);
              b.remove(Tags.ACQUISITION_TIME_SYNCHRONIZED);
            },
            Rule.PRESENCE,
            "(0020,0200)"),
        new Change(
            "dilated", b -> b.text(Tags.PUPIL_DILATED, Vr.CS, "YES"), Rule.PRESENCE, "(0022,0058)"),
        new Change(
            "bits stored",
            b -> b.numbers(Tags.BITS_STORED, Vr.US, 10),
            Rule.ENUMERATION,
            "(0028,0101)"),
        new Change("power", b -> b.remove(Tags.ILLUMINATION_POWER), Rule.PRESENCE, "(0022,0056)"),
        new Change(
            "characters",
            b -> b.text(Tags.PATIENT_NAME, Vr.PN, "Möwe"),
            Rule.PRESENCE,
            "(0008,0005)"),
        new Change(
            "anatomy in frame",
            inShared(
                i ->
                    i.items(
                        Tags.FRAME_ANATOMY_SEQUENCE,
                        Dataset.builder().text(Tags.FRAME_LATERALITY, Vr.CS, "R").build())),
            Rule.PRESENCE,
            "(5200,9229)[1]/(0020,9071)[1]/(0008,2218)"));
  }

  @TestFactory
  Stream<DynamicTest> brokenFormats() {
    List<Change> changes = new ArrayList<>();
    int[] any = {0x00091001};
    String[][] bad = {
      {"UI", "1.02"},
      {"UI", "1." + "2".repeat(63)},
      {"UI", "1..2"},
      {"DS", "1.23456789012345678"},
      {"DS", "1,5"},
      {"IS", "1.5"},
      {"CS", "lower"},
      {"CS", "A".repeat(17)},
      {"DA", "20250230"},
      {"DA", "2025-01-01"},
      {"TM", "250000"},
      {"TM", "10:15"},
      {"DT", "20251301"},
      {"DT", "2025x"},
      {"SH", "s".repeat(17)},
      {"LO", "l".repeat(65)},
      {"ST", "s".repeat(1025)},
      {"LT", "l".repeat(10241)},
    };
    for (String[] pair : bad) {
      Rule rule = pair[0].equals("UI") ? Rule.UID : Rule.FORMAT;
      changes.add(
          new Change(
              pair[0] + " " + pair[1],
              b -> b.text(any[0], Vr.valueOf(pair[0]), pair[1]),
              rule,
              "(0009,1001)"));
    }
    return tests(MAP, MAP_PIXELS, changes.toArray(Change[]::new));
  }

  @TestFactory
  Stream<DynamicTest> everyMandatoryAttributeOfAMapIsMissedAndItsValueToo() {
    return mandatory(MAP, MAP_PIXELS);
  }

  @TestFactory
  Stream<DynamicTest> everyMandatoryAttributeOfAScanIsMissedAndItsValueToo() {
    return mandatory(SCAN, SCAN_PIXELS);
  }

  @TestFactory
  Stream<DynamicTest> everyMandatoryAttributeOfAPhotographIsMissedAndItsValueToo() {
    return mandatory(PHOTOGRAPH, PHOTOGRAPH_PIXELS);
  }

  private static Stream<DynamicTest> mandatory(Dataset valid, PixelContent pixels) {
    List<Change> changes = new ArrayList<>();
    IodTable iod = IodTables.standard().iod(valid.text(Tags.SOP_CLASS_UID).get()).get();
    for (ModuleUse use : iod.modules()) {
      if (use.usage() == ModuleUse.Usage.M && use.module().isPresent()) {
        use.module().get().attributes().forEach(rule -> mutations(rule, valid, changes));
      }
    }
    assertTrue(changes.size() > 60, "only " + changes.size());
    return tests(valid, pixels, changes.toArray(Change[]::new));
  }

  private static void mutations(AttributeRule rule, Dataset valid, List<Change> changes) {
    boolean strict = rule.type() == AttributeType.ONE || rule.type() == AttributeType.TWO;
    if (!strict || rule.tag() == Tags.SOP_CLASS_UID) {
      return;
    }
    String path = Collector.path("", rule.tag());
    changes.add(
        new Change("without " + rule.name(), b -> b.remove(rule.tag()), Rule.PRESENCE, path));
    Element element = valid.element(rule.tag()).orElseThrow();
    if (rule.type() == AttributeType.ONE && !(element instanceof Element.Bytes)) {
      changes.add(
          new Change("empty " + rule.name(), b -> b.put(emptied(element)), Rule.VALUE, path));
    }
  }

  private static Element emptied(Element element) {
    if (element instanceof Element.Sequence) {
      return new Element.Sequence(element.tag(), List.of());
    }
    return element instanceof Element.Numbers
        ? new Element.Numbers(element.tag(), element.vr(), List.of())
        : new Element.Text(element.tag(), element.vr(), List.of());
  }

  @Test
  void whatCannotBeJudgedIsListed() {
    CheckReport report = CHECKER.check(MAP, PixelContent.compressed());
    List<String> paths = report.unchecked().stream().map(Unchecked::path).toList();
    assertTrue(paths.contains("general-acquisition"));
    assertTrue(paths.contains("Patient"));
    assertTrue(paths.contains("(7FE0,0010)"));
    assertTrue(paths.contains("(0008,2112)[1]/(0008,1160)"));
    assertTrue(paths.contains("(0008,2112)[1]/(0040,A170)[1]"));
    assertTrue(report.clean());
  }

  private static Consumer<Dataset.Builder> inMapping(UnaryOperator<Dataset.Builder> change) {
    return b ->
        b.items(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            change
                .apply(MAP.items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE).get(0).toBuilder())
                .build());
  }

  private static Consumer<Dataset.Builder> inShared(UnaryOperator<Dataset.Builder> change) {
    return b ->
        b.items(
            Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
            change
                .apply(SCAN.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0).toBuilder())
                .build());
  }

  private static Stream<DynamicTest> tests(Dataset valid, PixelContent pixels, Change... changes) {
    return Stream.of(changes)
        .map(
            change ->
                DynamicTest.dynamicTest(
                    change.name(),
                    () -> {
                      Dataset.Builder builder = valid.toBuilder();
                      change.change().accept(builder);
                      List<Violation> found = CHECKER.check(builder.build(), pixels).violations();
                      assertTrue(
                          found.stream()
                              .anyMatch(
                                  v -> v.rule() == change.rule() && v.path().equals(change.path())),
                          change.rule() + " at " + change.path() + " not in " + found);
                    }));
  }
}

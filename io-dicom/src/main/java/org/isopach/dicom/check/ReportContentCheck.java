package org.isopach.dicom.check;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.MacularGridCodes;

/**
 * Judges the content tree of a Macular Grid Thickness and Volume Report: value types and
 * relationships (DICOM PS3.3, A.35.11, 2020), what each value type must have (C.17.3), root concept
 * and template (PS3.16, TID 2100), and the unit of every grid measurement.
 *
 * <p>The rows of TID 2100 and 2101 were not at hand: which items there must be is not judged beyond
 * the measurements of the grid.
 */
final class ReportContentCheck {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.79.1";

  private static final String ROOT = "111690";
  private static final String TEMPLATE = "2100";
  private static final Set<String> GRID = Set.of("um");
  private static final Set<String> VOLUME = Set.of("mm3", "uL");

  /** By relationship and value type of the parent: the value types allowed. */
  private static final Map<String, Set<String>> ALLOWED =
      Map.of(
          "CONTAINER HAS OBS CONTEXT",
          Set.of("CODE", "PNAME", "TEXT", "UIDREF", "DATE", "NUM"),
          "CONTAINER CONTAINS",
          Set.of("CONTAINER", "NUM", "TEXT", "CODE"),
          "NUM HAS OBS CONTEXT",
          Set.of("TEXT"),
          "NUM INFERRED FROM",
          Set.of("IMAGE"));

  private static final Map<String, Integer> VALUE_OF =
      Map.of(
          "TEXT", Tags.TEXT_VALUE,
          "CODE", Tags.CONCEPT_CODE_SEQUENCE,
          "DATE", Tags.DATE,
          "UIDREF", Tags.UID,
          "PNAME", Tags.PERSON_NAME,
          "IMAGE", Tags.REFERENCED_SOP_SEQUENCE,
          "CONTAINER", Tags.CONTINUITY_OF_CONTENT);

  private final Collector collector;

  ReportContentCheck(Collector collector) {
    this.collector = collector;
  }

  void check(Dataset report) {
    expect("", Tags.CONCEPT_NAME_CODE_SEQUENCE, ROOT, concept(report).map(Code::value).orElse(""));
    String template =
        report.items(Tags.CONTENT_TEMPLATE_SEQUENCE).stream()
            .findFirst()
            .flatMap(item -> item.text(Tags.TEMPLATE_IDENTIFIER))
            .orElse("");
    expect("", Tags.CONTENT_TEMPLATE_SEQUENCE, TEMPLATE, template);
    children(report, "");
    collector.unchecked("TID 2100", "the rows of the template are not in the table");
  }

  private void children(Dataset parent, String path) {
    List<Dataset> items = parent.items(Tags.CONTENT_SEQUENCE);
    for (int i = 0; i < items.size(); i++) {
      String own = Collector.item(Collector.path(path, Tags.CONTENT_SEQUENCE), i);
      item(items.get(i), parent, own);
      children(items.get(i), own);
    }
  }

  private void item(Dataset item, Dataset parent, String path) {
    String relationship = item.text(Tags.RELATIONSHIP_TYPE).orElse("");
    String type = item.text(Tags.VALUE_TYPE).orElse("");
    boolean modifier = relationship.equals("HAS CONCEPT MOD") && type.equals("CODE");
    String key = parent.text(Tags.VALUE_TYPE).orElse("") + " " + relationship;
    if (!modifier && !ALLOWED.getOrDefault(key, Set.of()).contains(type)) {
      collector.violation(
          path, Rule.CONTENT, "a relationship of the report's class", key + " " + type);
    }
    if (!type.equals("IMAGE") && concept(item).isEmpty()) {
      collector.violation(path, Rule.CONTENT, "a coded concept name", "none");
    }
    Integer needed = VALUE_OF.get(type);
    if (needed != null
        && item.element(needed).map(value -> value.multiplicity() == 0).orElse(true)) {
      collector.violation(Collector.path(path, needed), Rule.VALUE, "a value", "none");
    }
    if (type.equals("NUM")) {
      number(item, path);
    }
  }

  private void number(Dataset item, String path) {
    if (!item.has(Tags.MEASURED_VALUE_SEQUENCE)) {
      String missing = Collector.path(path, Tags.MEASURED_VALUE_SEQUENCE);
      collector.violation(missing, Rule.PRESENCE, "present", "absent");
    }
    for (Dataset measured : item.items(Tags.MEASURED_VALUE_SEQUENCE)) {
      Optional<Code> unit =
          measured.items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE).stream()
              .findFirst()
              .flatMap(Code::of);
      Optional<Set<String>> allowed = concept(item).flatMap(ReportContentCheck::units);
      if (measured.text(Tags.NUMERIC_VALUE).isEmpty() || unit.isEmpty()) {
        collector.violation(path, Rule.VALUE, "a number and its unit", "not both");
      } else if (allowed.isPresent() && !allowed.get().contains(unit.get().value())) {
        collector.violation(
            path, Rule.CODE_ALLOWED, "one of " + allowed.get(), unit.get().toString());
      }
    }
  }

  private static Optional<Set<String>> units(Code concept) {
    if (concept.sameAs(MacularGridCodes.TOTAL_VOLUME)) {
      return Optional.of(VOLUME);
    }
    boolean thickness =
        concept.sameAs(MacularGridCodes.CENTRE_POINT)
            || MacularGridCodes.SECTORS.values().stream().anyMatch(concept::sameAs);
    return thickness ? Optional.of(GRID) : Optional.empty();
  }

  private static Optional<Code> concept(Dataset item) {
    return item.items(Tags.CONCEPT_NAME_CODE_SEQUENCE).stream().findFirst().flatMap(Code::of);
  }

  private void expect(String outer, int tag, String expected, String actual) {
    if (!actual.equals(expected)) {
      collector.violation(Collector.path(outer, tag), Rule.CONTENT, expected, actual);
    }
  }
}

package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.FormerCodes;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.EyeCode;
import org.isopach.dicom.derive.MacularGridCodes;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads Macular Grid Thickness and Volume Reports, ours and others'.
 *
 * <p>A container of findings that names one side is one eye. Numbers are recognised by their LOINC
 * codes wherever they stand in it; a thickness must be in um, a volume in mm3 or uL. What the
 * thickness lies between counts only when it is one and stated for all numbers.
 */
public final class MacularGridReportReader {
  private static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.79.1";
  private static final Code FINDINGS = new Code("121070", "DCM", "");
  private static final Code METHOD = new Code("370129005", "SCT", "");
  private static final Code LATERALITY = new Code("272741003", "SCT", "");

  private MacularGridReportReader() {}

  /**
   * Returns the eyes of a report in its own order.
   *
   * @throws ObjectDefect when the file is no such report or names no eye
   * @throws IOException when the file cannot be read
   */
  public static List<MacularGridReport> read(Path file) throws IOException, ObjectDefect {
    return of(ParsedObject.of(file, new PixelMedObjectReader()).attributes());
  }

  static List<MacularGridReport> of(Dataset report) throws ObjectDefect {
    if (report.text(Tags.SOP_CLASS_UID).filter(SOP_CLASS_UID::equals).isEmpty()) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no macular grid report");
    }
    List<MacularGridReport> eyes = new ArrayList<>();
    for (Dataset findings : all(report, item -> named(item, FINDINGS))) {
      eyes.add(eye(findings));
    }
    if (eyes.isEmpty()) {
      throw bad("the report has no findings (121070, DCM)");
    }
    return List.copyOf(eyes);
  }

  private static MacularGridReport eye(Dataset findings) throws ObjectDefect {
    Set<String> sources = new LinkedHashSet<>();
    for (Dataset image : all(findings, i -> i.text(Tags.VALUE_TYPE).equals(Optional.of("IMAGE")))) {
      for (Dataset item : image.items(Tags.REFERENCED_SOP_SEQUENCE)) {
        item.text(Tags.REFERENCED_SOP_INSTANCE_UID).ifPresent(sources::add);
      }
    }
    return new MacularGridReport(
        side(findings), method(findings), GridNumbers.of(findings), sources);
  }

  /**
   * Returns the one method that all numbers share: the only one named anywhere in the findings,
   * standing on their container or on every number of the grid. Empty otherwise.
   */
  private static Optional<Code> method(Dataset findings) {
    List<Code> named = new ArrayList<>();
    for (Dataset item : all(findings, i -> named(i, METHOD))) {
      Optional<Code> code = coded(item);
      if (code.isEmpty()) {
        return Optional.empty();
      }
      if (named.stream().noneMatch(code.get()::sameAs)) {
        named.add(code.get());
      }
    }
    List<Dataset> numbers = all(findings, MacularGridReportReader::ofGrid);
    boolean forAll =
        states(findings)
            || (!numbers.isEmpty() && numbers.stream().allMatch(MacularGridReportReader::states));
    return named.size() == 1 && forAll ? Optional.of(named.get(0)) : Optional.empty();
  }

  private static boolean states(Dataset parent) {
    return parent.items(Tags.CONTENT_SEQUENCE).stream().anyMatch(item -> named(item, METHOD));
  }

  static boolean ofGrid(Dataset item) {
    return named(item, MacularGridCodes.CENTRE_POINT)
        || named(item, MacularGridCodes.TOTAL_VOLUME)
        || MacularGridCodes.SECTORS.values().stream().anyMatch(code -> named(item, code));
  }

  private static Laterality side(Dataset findings) throws ObjectDefect {
    Set<Laterality> sides = new LinkedHashSet<>();
    for (Dataset item : all(findings, i -> named(i, LATERALITY))) {
      coded(item).flatMap(EyeCode::laterality).ifPresent(sides::add);
    }
    if (sides.size() != 1) {
      throw bad("findings must name one eye, named " + sides);
    }
    return sides.iterator().next();
  }

  static boolean named(Dataset item, Code code) {
    return item.items(Tags.CONCEPT_NAME_CODE_SEQUENCE).stream()
        .flatMap(name -> Code.of(name).stream())
        .anyMatch(found -> FormerCodes.same(found, code));
  }

  private static Optional<Code> coded(Dataset item) {
    return item.items(Tags.CONCEPT_CODE_SEQUENCE).stream().findFirst().flatMap(Code::of);
  }

  /** Returns all content items below one that pass a test, outer ones first. */
  static List<Dataset> all(Dataset parent, Predicate<Dataset> test) {
    List<Dataset> found = new ArrayList<>();
    for (Dataset item : parent.items(Tags.CONTENT_SEQUENCE)) {
      if (test.test(item)) {
        found.add(item);
      }
      found.addAll(all(item, test));
    }
    return found;
  }

  private static ObjectDefect bad(String detail) {
    return new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, detail);
  }
}

package org.isopach.dicom.check;

import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Judges an object by the definition of its SOP class: modules, attributes, codes, pixels and
 * functional groups. Safe for several threads.
 *
 * <p>Conditions that the object alone cannot decide are listed as not checked. Attributes outside
 * the definition are left alone, as a standard extended class allows them, but for how their values
 * are written.
 */
public final class IodChecker {
  private final IodTables tables;

  private IodChecker(IodTables tables) {
    this.tables = tables;
  }

  /** Returns a checker with the project's tables; their edition is told in the README there. */
  public static IodChecker standard() {
    return new IodChecker(IodTables.standard());
  }

  /**
   * Returns the judgement of an object.
   *
   * @param dataset all attributes but the pixel data
   * @param pixels what is known of the pixel data
   */
  public CheckReport check(Dataset dataset, PixelContent pixels) {
    Collector collector = new Collector();
    String sopClass = dataset.text(Tags.SOP_CLASS_UID).orElse("none");
    Optional<IodTable> iod = tables.iod(sopClass);
    if (iod.isEmpty()) {
      String path = Collector.path("", Tags.SOP_CLASS_UID);
      collector.violation(path, Rule.OBJECT_KNOWN, "a SOP class with a table", sopClass);
      return collector.report();
    }
    AttributeCheck attributes = new AttributeCheck(tables, collector);
    Scope top = Scope.top(dataset, pixels);
    for (ModuleUse use : iod.get().modules()) {
      module(use, iod.get(), top, attributes, collector);
    }
    if (!iod.get().functionalGroups().isEmpty()) {
      new FunctionalGroupCheck(attributes, collector).check(iod.get().functionalGroups(), top);
    }
    if (sopClass.equals(ReportContentCheck.SOP_CLASS_UID)) {
      new ReportContentCheck(collector).check(dataset);
    }
    new FormatCheck(collector).checkAll(dataset, "");
    new PixelCheck(collector).check(dataset, pixels);
    return collector.report();
  }

  private static void module(
      ModuleUse use, IodTable iod, Scope top, AttributeCheck attributes, Collector collector) {
    if (use.module().isEmpty()) {
      collector.unchecked(use.key(), "no table of this module");
      return;
    }
    ModuleTable table = use.module().get();
    Truth needed =
        switch (use.usage()) {
          case M -> Truth.TRUE;
          case C -> use.requirement().evaluate(top);
          case U -> Truth.FALSE;
        };
    boolean present = use.usage() == ModuleUse.Usage.M || isPresent(table, iod, top);
    if (present
        && use.usage() == ModuleUse.Usage.C
        && needed == Truth.FALSE
        && !use.requirement().otherwise()) {
      String expected = "no module " + table.name() + ": " + use.requirement().text();
      collector.violation(table.name(), Rule.MODULE_FORBIDDEN, expected, "present");
    }
    if (present || needed == Truth.TRUE) {
      attributes.checkAll(table.attributes(), top, "");
      if (table.partial()) {
        collector.unchecked(
            table.name(), "type 3 attributes and items of sequences are not in the table");
      }
    } else if (needed == Truth.UNKNOWN) {
      collector.unchecked(table.name(), use.requirement().text());
    }
  }

  /** Returns whether an attribute is there that no mandatory module has. */
  private static boolean isPresent(ModuleTable table, IodTable iod, Scope top) {
    Set<Integer> mandatory = new HashSet<>();
    for (ModuleUse use : iod.modules()) {
      if (use.usage() == ModuleUse.Usage.M && use.module().isPresent()) {
        use.module().get().attributes().forEach(a -> mandatory.add(a.tag()));
      }
    }
    return table.attributes().stream()
        .map(AttributeRule::tag)
        .anyMatch(tag -> !mandatory.contains(tag) && top.hasHere(tag));
  }
}

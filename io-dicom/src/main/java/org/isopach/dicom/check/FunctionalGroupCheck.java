package org.isopach.dicom.check;

import java.util.List;
import java.util.Optional;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;

/** Judges the functional groups of a multi-frame object (DICOM PS3.3, C.7.6.16). */
final class FunctionalGroupCheck {
  private static final int SHARED = Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE;
  private static final int PER_FRAME = Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE;

  private final AttributeCheck attributes;
  private final Collector collector;

  FunctionalGroupCheck(AttributeCheck attributes, Collector collector) {
    this.attributes = attributes;
    this.collector = collector;
  }

  void check(List<ModuleUse> macros, Scope top) {
    List<Dataset> frames = top.here().items(PER_FRAME);
    Optional<Long> declared = Values.whole(top.here(), Tags.NUMBER_OF_FRAMES);
    if (declared.isPresent() && declared.get() != frames.size()) {
      collector.violation(
          Collector.path("", PER_FRAME),
          Rule.ITEM_COUNT,
          declared.get() + " items, the Number of Frames",
          Integer.toString(frames.size()));
    }
    for (ModuleUse macro : macros) {
      macro(macro, top, frames);
    }
    dimensions(top.here(), frames);
  }

  private void macro(ModuleUse macro, Scope top, List<Dataset> frames) {
    if (macro.module().isEmpty()) {
      collector.unchecked(macro.key(), "no table of this functional group");
      return;
    }
    ModuleTable table = macro.module().get();
    int tag = table.attributes().get(0).tag();
    Optional<Dataset> shared = top.here().items(SHARED).stream().findFirst();
    boolean inShared = shared.map(s -> s.has(tag)).orElse(false);
    long inFrames = frames.stream().filter(f -> f.has(tag)).count();
    String path = Collector.path("", tag);
    if (inShared && inFrames > 0) {
      collector.violation(path, Rule.FUNCTIONAL_GROUP, "shared or per frame", "in both");
    } else if (!inShared && inFrames > 0 && inFrames < frames.size()) {
      collector.violation(
          path, Rule.FUNCTIONAL_GROUP, "in every frame", "in " + inFrames + " of them");
    }
    usage(macro, table, top, inShared || inFrames > 0, path);
    if (inShared) {
      String outer = Collector.item(Collector.path("", SHARED), 0);
      attributes.checkAll(table.attributes(), top.inside(shared.get()), outer);
    }
    for (int i = 0; i < frames.size(); i++) {
      if (frames.get(i).has(tag)) {
        String outer = Collector.item(Collector.path("", PER_FRAME), i);
        attributes.checkAll(table.attributes(), top.inside(frames.get(i)), outer);
      }
    }
  }

  private void usage(ModuleUse macro, ModuleTable table, Scope top, boolean present, String path) {
    Truth needed =
        switch (macro.usage()) {
          case M -> Truth.TRUE;
          case C -> macro.requirement().evaluate(top);
          case U -> Truth.FALSE;
        };
    if (!present && needed == Truth.TRUE) {
      collector.violation(path, Rule.FUNCTIONAL_GROUP, table.name(), "absent");
    } else if (!present && needed == Truth.UNKNOWN) {
      collector.unchecked(path, macro.requirement().text());
    } else if (present
        && macro.usage() == ModuleUse.Usage.C
        && needed == Truth.FALSE
        && !macro.requirement().otherwise()) {
      collector.violation(
          path, Rule.FUNCTIONAL_GROUP, "absent: " + macro.requirement().text(), "present");
    }
  }

  private void dimensions(Dataset dataset, List<Dataset> frames) {
    int declared = dataset.items(Tags.DIMENSION_INDEX_SEQUENCE).size();
    for (int i = 0; i < frames.size(); i++) {
      for (Dataset content : frames.get(i).items(Tags.FRAME_CONTENT_SEQUENCE)) {
        int indices =
            content.element(Tags.DIMENSION_INDEX_VALUES).map(Element::multiplicity).orElse(0);
        if (content.has(Tags.DIMENSION_INDEX_VALUES) && indices != declared) {
          String frame = Collector.item(Collector.path("", PER_FRAME), i);
          String group = Collector.item(Collector.path(frame, Tags.FRAME_CONTENT_SEQUENCE), 0);
          collector.violation(
              Collector.path(group, Tags.DIMENSION_INDEX_VALUES),
              Rule.MULTIPLICITY,
              declared + ", one for each dimension",
              Integer.toString(indices));
        }
      }
    }
  }
}

package org.isopach.dicom.check;

import java.util.List;
import java.util.Optional;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;

/** Judges attributes by the lines of a table. */
final class AttributeCheck {
  private static final int LONG_CODE_VALUE = 0x00080119;
  private static final int URN_CODE_VALUE = 0x00080120;

  private final IodTables tables;
  private final Collector collector;

  AttributeCheck(IodTables tables, Collector collector) {
    this.tables = tables;
    this.collector = collector;
  }

  void checkAll(List<AttributeRule> rules, Scope scope, String outerPath) {
    for (AttributeRule rule : rules) {
      check(rule, scope, outerPath);
    }
  }

  private void check(AttributeRule rule, Scope scope, String outerPath) {
    String path = Collector.path(outerPath, rule.tag());
    if (!scope.hasHere(rule.tag())) {
      absent(rule, scope, path);
      return;
    }
    if (rule.type().conditional()
        && !rule.requirement().otherwise()
        && rule.requirement().evaluate(scope) == Truth.FALSE) {
      collector.violation(path, Rule.FORBIDDEN, "absent: " + rule.requirement().text(), "present");
    }
    scope.here().element(rule.tag()).ifPresent(element -> present(rule, element, scope, path));
  }

  private void absent(AttributeRule rule, Scope scope, String path) {
    Truth needed =
        switch (rule.type()) {
          case ONE, TWO -> Truth.TRUE;
          case ONE_C, TWO_C -> rule.requirement().evaluate(scope);
          case THREE -> Truth.FALSE;
        };
    if (needed == Truth.TRUE) {
      String expected = rule.name() + ", type " + rule.type().code();
      collector.violation(path, Rule.PRESENCE, expected, "absent");
    } else if (needed == Truth.UNKNOWN) {
      collector.unchecked(path, rule.requirement().text());
    }
  }

  private void present(AttributeRule rule, Element element, Scope scope, String path) {
    if (!rule.vrs().contains(element.vr())) {
      collector.violation(
          path, Rule.REPRESENTATION, rule.vrs().toString(), element.vr().toString());
      return;
    }
    if (element instanceof Element.Sequence sequence) {
      items(rule, sequence, scope, path);
      return;
    }
    if (element.multiplicity() == 0 || Values.of(element).stream().anyMatch(String::isBlank)) {
      if (rule.type().needsValue()) {
        collector.violation(path, Rule.VALUE, "a value of " + rule.name(), "none");
      }
      return;
    }
    values(rule, element, path);
  }

  private void values(AttributeRule rule, Element element, String path) {
    int count = element.multiplicity();
    if (rule.multiplicity().isPresent() && !rule.multiplicity().get().allows(count)) {
      String expected = rule.multiplicity().get().toString();
      collector.violation(path, Rule.MULTIPLICITY, expected, Integer.toString(count));
    }
    for (String value : rule.enumerated().isEmpty() ? List.<String>of() : Values.of(element)) {
      if (!rule.enumerated().contains(value)) {
        collector.violation(path, Rule.ENUMERATION, rule.enumerated().toString(), value);
      }
    }
  }

  private void items(AttributeRule rule, Element.Sequence sequence, Scope scope, String path) {
    int count = sequence.items().size();
    Optional<Multiplicity> allowed = rule.multiplicity();
    boolean emptyAllowed = count == 0 && !rule.type().needsValue();
    if (count == 0 && rule.type().needsValue()) {
      collector.violation(path, Rule.VALUE, "an item of " + rule.name(), "none");
    } else if (!emptyAllowed && allowed.isPresent() && !allowed.get().allows(count)) {
      collector.violation(path, Rule.ITEM_COUNT, allowed.get().toString(), Integer.toString(count));
    }
    for (int i = 0; i < count; i++) {
      Dataset item = sequence.items().get(i);
      String itemPath = Collector.item(path, i);
      rule.codes().ifPresent(codes -> code(codes, item, itemPath));
      checkAll(rule.children(), scope.inside(item), itemPath);
    }
  }

  private void code(AttributeRule.CodeRule rule, Dataset item, String path) {
    if (item.text(Tags.CODE_MEANING).filter(m -> !m.isBlank()).isEmpty()) {
      collector.violation(path, Rule.CODE_COMPLETE, "Code Meaning", "none");
    }
    Optional<Code> code = Code.of(item);
    if (code.isEmpty()) {
      boolean otherForm = item.has(LONG_CODE_VALUE) || item.has(URN_CODE_VALUE);
      if (!otherForm) {
        collector.violation(
            path, Rule.CODE_COMPLETE, "Code Value and Coding Scheme Designator", "not both");
      }
      return;
    }
    if (rule.fixed().isPresent() && !rule.fixed().get().sameAs(code.get())) {
      collector.violation(
          path, Rule.CODE_ALLOWED, rule.fixed().get().toString(), code.get().toString());
    }
    rule.contextGroup().ifPresent(group -> member(group, code.get(), path));
  }

  private void member(String group, Code code, String path) {
    Optional<List<Code>> codes = tables.contextGroup(group);
    if (codes.isEmpty()) {
      collector.unchecked(path, "the codes of CID " + group + " are not in the tables");
    } else if (codes.get().stream().noneMatch(code::sameAs)) {
      collector.violation(path, Rule.CODE_ALLOWED, "a code of CID " + group, code.toString());
    }
  }
}

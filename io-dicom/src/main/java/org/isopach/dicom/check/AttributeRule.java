package org.isopach.dicom.check;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Vr;

/**
 * One line of a module's table.
 *
 * @param tag the attribute
 * @param name its name in the standard
 * @param vrs the representations it may have
 * @param multiplicity how many values; for a sequence, how many items
 * @param type how strongly it is asked for
 * @param requirement when a conditional attribute is asked for
 * @param enumerated the only values allowed; none when open
 * @param codes what a code sequence may hold; empty when this is none
 * @param children the attributes of a sequence's items
 */
record AttributeRule(
    int tag,
    String name,
    Set<Vr> vrs,
    Optional<Multiplicity> multiplicity,
    AttributeType type,
    Requirement requirement,
    List<String> enumerated,
    Optional<CodeRule> codes,
    List<AttributeRule> children) {
  AttributeRule {
    vrs = Set.copyOf(vrs);
    enumerated = List.copyOf(enumerated);
    children = List.copyOf(children);
  }

  /**
   * When something conditional is asked for.
   *
   * @param text the standard's condition, abridged
   * @param condition its evaluable part; empty when a machine cannot tell
   * @param otherwise whether it may be present when the condition does not hold
   */
  record Requirement(String text, Optional<Condition> condition, boolean otherwise) {
    Truth evaluate(Scope scope) {
      return condition.map(c -> c.evaluate(scope)).orElse(Truth.UNKNOWN);
    }
  }

  /**
   * What a code sequence may hold.
   *
   * @param contextGroup identifier of the context group; empty when open
   * @param fixed the only code allowed; empty when open
   */
  record CodeRule(Optional<String> contextGroup, Optional<Code> fixed) {}
}

package org.isopach.report.table;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.nerve.NerveEvent;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * What became of one value of the nerve between two visits.
 *
 * @param eye which eye
 * @param role what both scans were taken for
 * @param key which value
 * @param baseline the earlier scan
 * @param followUp the later one
 * @param days calendar days between; empty when not known
 * @param baselineValue in the measure's unit; empty when refused
 * @param followUpValue likewise
 * @param event what the change says against noise; empty for values that are not judged
 * @param words what there is to say beside, such as a local defect's place; may be empty
 */
public record NerveChange(
    Eye eye,
    String role,
    NerveKey key,
    ScanIdentity baseline,
    ScanIdentity followUp,
    OptionalLong days,
    OptionalDouble baselineValue,
    OptionalDouble followUpValue,
    Optional<NerveEvent> event,
    String words) {
  public NerveChange {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(role, "role");
    Objects.requireNonNull(key, "key");
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(days, "days");
    Objects.requireNonNull(event, "event");
    Objects.requireNonNull(words, "words");
  }

  /** Returns the change where both visits have a value. */
  public OptionalDouble change() {
    return baselineValue.isPresent() && followUpValue.isPresent()
        ? OptionalDouble.of(followUpValue.getAsDouble() - baselineValue.getAsDouble())
        : OptionalDouble.empty();
  }
}

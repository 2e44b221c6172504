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
 * @param change follow-up less baseline; of directions the shorter way round; empty where either is
 *     missing
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
    OptionalDouble change,
    Optional<NerveEvent> event,
    String words) {
  private static final double FULL_TURN = 360;

  public NerveChange {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(role, "role");
    Objects.requireNonNull(key, "key");
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(days, "days");
    Objects.requireNonNull(change, "change");
    Objects.requireNonNull(event, "event");
    Objects.requireNonNull(words, "words");
  }

  /** Makes the change between two values, each empty when refused. */
  public static NerveChange between(
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
    return new NerveChange(
        eye,
        role,
        key,
        baseline,
        followUp,
        days,
        baselineValue,
        followUpValue,
        change(key, baselineValue, followUpValue),
        event,
        words);
  }

  /** Makes the row of a stretch of the circle, which has a change and no values of its own. */
  public static NerveChange ofStretch(
      Eye eye,
      String role,
      NerveKey key,
      ScanIdentity baseline,
      ScanIdentity followUp,
      OptionalLong days,
      OptionalDouble change,
      String words) {
    return new NerveChange(
        eye,
        role,
        key,
        baseline,
        followUp,
        days,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        change,
        Optional.empty(),
        words);
  }

  private static OptionalDouble change(
      NerveKey key, OptionalDouble baseline, OptionalDouble followUp) {
    if (baseline.isEmpty() || followUp.isEmpty()) {
      return OptionalDouble.empty();
    }
    double change = followUp.getAsDouble() - baseline.getAsDouble();
    return OptionalDouble.of(
        key.measure() == NerveMeasure.DISC_TILT_TOWARDS
            ? Math.IEEEremainder(change, FULL_TURN)
            : change);
  }
}

package org.isopach.job;

import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind.Gravity;

/** How a run ended; the one place that turns findings into an exit code. */
public enum ExitStatus {
  /** Every scan and map gave the numbers asked for; single sectors may be refused. */
  ALL_MEASURED(0, "everything was measured"),
  /** The program was called wrongly; nothing was done. */
  USAGE(2, "wrong call: nothing was done"),
  /** Some inputs gave fewer numbers than asked for, or none; each is named. */
  SOME_NOT_MEASURED(3, "some inputs were not measured; each is named"),
  /** No input gave any number. */
  NOTHING_MEASURABLE(4, "nothing could be measured");

  private final int code;
  private final String words;

  ExitStatus(int code, String words) {
    this.code = code;
    this.words = words;
  }

  /** Returns the process's exit code. */
  public int code() {
    return code;
  }

  /** Returns what the code means in plain words. */
  public String words() {
    return words;
  }

  /**
   * Returns the status of a run.
   *
   * @param anyMeasured whether at least one input gave boundaries or a sector
   * @param findings everything there was to say
   */
  static ExitStatus of(boolean anyMeasured, List<Finding> findings) {
    if (!anyMeasured) {
      return NOTHING_MEASURABLE;
    }
    boolean gap =
        findings.stream()
            .map(finding -> finding.kind().gravity())
            .anyMatch(
                gravity -> gravity == Gravity.PARTLY_MEASURED || gravity == Gravity.NOT_MEASURED);
    return gap ? SOME_NOT_MEASURED : ALL_MEASURED;
  }
}

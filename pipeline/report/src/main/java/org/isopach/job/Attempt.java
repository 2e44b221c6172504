package org.isopach.job;

import java.io.IOException;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One try at one object: whatever goes wrong becomes a finding about it, and the run goes on. */
final class Attempt {
  private static final Logger LOG = LoggerFactory.getLogger(Attempt.class);

  private final String subject;
  private final RunLedger ledger;
  private String outcome = "failed";

  /** The work on one object. */
  @FunctionalInterface
  interface Work {
    /** Does it and returns whether it gave any number. */
    boolean run() throws InterruptedException;
  }

  Attempt(String subject, RunLedger ledger) {
    this.subject = subject;
    this.ledger = ledger;
  }

  /** Does the work and returns whether it gave any number. */
  boolean run(Work work) throws InterruptedException {
    boolean any = false;
    try {
      any = work.run();
      outcome = any ? "measured" : "not-measured";
    } catch (WorkFailedException e) {
      FindingKind kind =
          e.getCause() instanceof IOException ? FindingKind.NOT_WRITTEN : FindingKind.FAILED;
      fail(kind, e.getCause());
    } catch (RuntimeException | OutOfMemoryError e) {
      fail(FindingKind.FAILED, e);
    }
    return any;
  }

  private void fail(FindingKind kind, Throwable cause) {
    LOG.debug("{}: the failure was", subject, cause);
    String message = cause.getMessage() == null ? "" : ": " + cause.getMessage();
    ledger.add(new Finding(kind, subject, cause.getClass().getSimpleName() + message));
  }

  /** Returns {@code measured}, {@code not-measured} or {@code failed}. */
  String outcome() {
    return outcome;
  }
}

package org.isopach.cli;

import java.io.PrintWriter;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.isopach.dicom.network.NetworkEvents;

/** Prints what happens on the network, each line with its time (UTC). */
final class NetworkLog implements NetworkEvents {
  private final PrintWriter err;
  private final boolean verbose;

  NetworkLog(PrintWriter err, boolean verbose) {
    this.err = err;
    this.verbose = verbose;
  }

  @Override
  public void event(Kind kind, String line) {
    if (kind == Kind.REFUSED || verbose) {
      say(line);
    }
  }

  synchronized void say(String line) {
    err.println(
        Instant.now(Clock.systemUTC()).truncatedTo(ChronoUnit.SECONDS) + " " + PlainText.of(line));
    err.flush();
  }
}

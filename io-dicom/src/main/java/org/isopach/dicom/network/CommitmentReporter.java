package org.isopach.dicom.network;

import java.io.ByteArrayInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.Semaphore;

/**
 * Calls peers to report storage commitment, one after another; four times at most, after 1, 2 and 4
 * seconds. At most 64 reports wait. Thread-safe.
 */
final class CommitmentReporter implements Closeable {
  private static final int MOST_WAITING = 64;
  private static final int ATTEMPTS = 4;

  private final ListenerSettings settings;
  private final NetworkEvents events;
  private final Semaphore room = new Semaphore(MOST_WAITING);
  private final ExecutorService calls = Executors.newSingleThreadExecutor();

  CommitmentReporter(ListenerSettings settings, NetworkEvents events) {
    this.settings = settings;
    this.events = events;
  }

  /** Where reports to one peer go. */
  final class Place {
    private final Destination to;

    private Place(Destination to) {
      this.to = to;
    }

    /** Returns whether there is room for one more report; {@link #report} must follow. */
    boolean reserve() {
      return room.tryAcquire();
    }

    /** Sends a report later. */
    void report(Commitment report) {
      try {
        calls.execute(() -> deliver(to, report));
      } catch (RejectedExecutionException e) {
        failed(to, report, "this listener stops");
        room.release();
      }
    }
  }

  /** Returns where reports to a title go, when its address was given. */
  Optional<Place> placeFor(String title) {
    return settings.commitTo().stream()
        .filter(one -> one.aet().equals(title))
        .findFirst()
        .map(Place::new);
  }

  private void deliver(Destination to, Commitment report) {
    try {
      String why = "";
      for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
        BackOff.CONNECTIONS.pause(attempt);
        if (Thread.currentThread().isInterrupted()) {
          failed(to, report, "this listener stops");
          return;
        }
        try {
          call(to, report);
          return;
        } catch (IOException e) {
          why = e.getMessage();
        }
      }
      failed(to, report, why);
    } finally {
      room.release();
    }
  }

  private void call(Destination to, Commitment report) throws IOException {
    CallerSettings caller =
        new CallerSettings(settings.aet(), to, settings.patience(), settings.tls(), 0);
    try (Association association =
        Caller.call(caller, CommitmentMessages.proposal(), List.of(Uids.COMMITMENT))) {
      PresentationContext context =
          association
              .context(Uids.COMMITMENT)
              .orElseThrow(() -> AssociationException.peer("it does not take reports"));
      association.send(
          context,
          CommitmentMessages.report(report, 1),
          new ByteArrayInputStream(CommitmentEncoder.encode(report, context.transferSyntax())));
      int status = Responses.await(association, Command.N_EVENT_REPORT_RQ, 1).status();
      association.release();
      if (status != StoreStatus.SUCCESS) {
        failed(to, report, String.format("it was answered by status %04X", status));
      } else {
        events.event(NetworkEvents.Kind.DONE, to + ": took the report of " + report.transaction());
      }
    }
  }

  private void failed(Destination to, Commitment report, String why) {
    events.event(
        NetworkEvents.Kind.REFUSED,
        to + ": the report of transaction " + report.transaction() + " was not taken: " + why);
  }

  /** Stops; what waits is not sent, and it is said how many. */
  @Override
  public void close() {
    int waiting = calls.shutdownNow().size();
    if (waiting > 0) {
      events.event(
          NetworkEvents.Kind.REFUSED, waiting + " reports of storage commitment were not sent");
    }
  }
}

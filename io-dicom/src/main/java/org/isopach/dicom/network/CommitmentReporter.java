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
import java.util.function.Supplier;
import java.util.function.UnaryOperator;

/**
 * Calls peers to report storage commitment, one after another; four times at most, after 1, 2 and 4
 * seconds. At most 64 reports wait. What is due when the program ends, however it ends, is sent by
 * the next one. Thread-safe.
 */
final class CommitmentReporter implements Closeable {
  private static final int MOST_WAITING = 64;
  private static final int ATTEMPTS = 4;
  private static final String STOPS = "this listener stops; the next start sends it";

  private final ListenerSettings settings;
  private final NetworkEvents events;
  private final DueReports due;
  private final Semaphore room = new Semaphore(MOST_WAITING);
  private final ExecutorService calls = Executors.newSingleThreadExecutor();

  CommitmentReporter(ListenerSettings settings, NetworkEvents events, DueReports due) {
    this.settings = settings;
    this.events = events;
    this.due = due;
  }

  /** Where reports to one peer go. */
  final class Place {
    private final Destination to;

    private Place(Destination to) {
      this.to = to;
    }

    /**
     * Writes down that a report is due; {@link #report} must follow.
     *
     * @return empty when too many are due, or the disk refuses
     */
    Optional<DueReports.Due> reserve(Commitment request) {
      if (!room.tryAcquire()) {
        return Optional.empty();
      }
      try {
        return Optional.of(due.add(to.aet(), request));
      } catch (IOException e) {
        room.release();
        refuse("cannot write down a request for commitment: " + e.getMessage());
        return Optional.empty();
      }
    }

    /** Sends a report later, as it is by then. */
    void report(DueReports.Due one, Supplier<Commitment> report) {
      try {
        calls.execute(() -> deliver(to, one, report));
      } catch (RejectedExecutionException e) {
        failed(to, one.request(), STOPS);
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

  /**
   * Sends what an earlier program left.
   *
   * @param look says what of a request is kept
   */
  void resume(UnaryOperator<Commitment> look) {
    due.damaged()
        .forEach(
            file ->
                refuse(
                    file
                        + " is damaged: a report of storage commitment is lost; delete the file to"
                        + " hear of it no more"));
    for (DueReports.Due one : due.left()) {
      Optional<Place> place = placeFor(one.title());
      if (place.isEmpty()) {
        refuse(
            "a report of storage commitment waits for "
                + one.title()
                + ", whose address is not named; --commit-to of 'isopach receive' names it");
      } else if (room.tryAcquire()) {
        place.get().report(one, () -> look.apply(one.request()));
      } else {
        failed(place.get().to, one.request(), "too many are due; the next start sends it");
      }
    }
  }

  private void deliver(Destination to, DueReports.Due one, Supplier<Commitment> look) {
    try {
      Commitment report = look.get();
      String why = "";
      for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
        BackOff.CONNECTIONS.pause(attempt);
        if (Thread.currentThread().isInterrupted()) {
          failed(to, report, STOPS);
          return;
        }
        try {
          call(to, report);
          done(one);
          return;
        } catch (IOException e) {
          why = e.getMessage();
        }
      }
      failed(to, report, why);
      done(one);
    } catch (RuntimeException e) {
      failed(to, one.request(), "a fault of our own (" + e + "); the next start sends it");
    } finally {
      room.release();
    }
  }

  private void done(DueReports.Due one) {
    try {
      due.done(one);
    } catch (IOException e) {
      refuse("a report will be sent again at the next start: " + e.getMessage());
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
    refuse(to + ": the report of transaction " + report.transaction() + " was not taken: " + why);
  }

  private void refuse(String line) {
    events.event(NetworkEvents.Kind.REFUSED, line);
  }

  /** Stops; what waits is sent at the next start, and it is said how many. */
  @Override
  public void close() {
    int waiting = calls.shutdownNow().size();
    if (waiting > 0) {
      refuse(waiting + " reports of storage commitment were not sent; the next start sends them");
    }
  }
}

package org.isopach.dicom.network;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Answers requests for storage commitment on one association (PS3.4, annex J; from memory): looks
 * which objects are kept, and reports it on the same association, or on a new one to a peer whose
 * address was given.
 */
final class CommitmentProvider {
  private static final int NO_SUCH_CLASS = 0x0118;
  private static final int NO_SUCH_ACTION = 0x0123;
  private static final int INVALID_ARGUMENT = 0x0115;
  private static final int RESOURCE_LIMITATION = 0x0213;

  private final Association association;
  private final ReceivedObjects objects;
  private final CommitmentReporter reporter;
  private final NetworkEvents events;
  private int reported;
  private int heard;

  CommitmentProvider(
      Association association,
      ReceivedObjects objects,
      CommitmentReporter reporter,
      NetworkEvents events) {
    this.association = association;
    this.objects = objects;
    this.reporter = reporter;
    this.events = events;
  }

  /**
   * Takes a message that came in the context of storage commitment.
   *
   * @return whether it is one of this service
   */
  boolean take(Association.Message message) throws IOException {
    Command command = message.command();
    int field = command.number(Command.FIELD).orElse(0);
    if (field == Command.N_ACTION_RQ && command.hasDataSet()) {
      action(message);
      return true;
    }
    if (field == (Command.N_EVENT_REPORT_RQ | Command.RESPONSE) && !command.hasDataSet()) {
      heard++;
      return heard <= reported;
    }
    return false;
  }

  private void action(Association.Message message) throws IOException {
    byte[] data = CommitmentMessages.dataSet(association, message.context());
    Optional<CommitmentReporter.Place> place = reporter.placeFor(association.title());
    Optional<Commitment> request = Optional.empty();
    int status = status(message.command());
    if (status == StoreStatus.SUCCESS) {
      request = sound(data, message.context().transferSyntax());
      status = request.isPresent() ? StoreStatus.SUCCESS : INVALID_ARGUMENT;
    }
    Optional<DueReports.Due> due = Optional.empty();
    if (status == StoreStatus.SUCCESS && place.isPresent()) {
      due = place.get().reserve(request.orElseThrow());
      status = due.isPresent() ? StoreStatus.SUCCESS : RESOURCE_LIMITATION;
    }
    Command answer = response(message.command(), status);
    if (due.isPresent()) {
      answer(message.context(), answer, place.orElseThrow(), due.get());
      return;
    }
    association.send(message.context(), answer);
    if (status != StoreStatus.SUCCESS) {
      say(
          NetworkEvents.Kind.REFUSED,
          String.format("refused to commit anything, with status %04X", status));
    } else {
      report(message.context(), said(request.orElseThrow()));
    }
  }

  /** Who did not hear the answer may still have asked: a report it does not await does no harm. */
  private void answer(
      PresentationContext context,
      Command answer,
      CommitmentReporter.Place place,
      DueReports.Due due)
      throws IOException {
    try {
      association.send(context, answer);
    } finally {
      place.report(due, () -> look(due.request(), objects));
      said(due.request());
    }
  }

  private static int status(Command command) {
    if (!command.text(Command.REQUESTED_SOP_CLASS).equals(Uids.COMMITMENT)) {
      return NO_SUCH_CLASS;
    }
    if (!command.text(Command.REQUESTED_SOP_INSTANCE).equals(Uids.COMMITMENT_INSTANCE)) {
      return Commitment.NO_SUCH_INSTANCE;
    }
    return command.number(Command.ACTION_TYPE).orElse(0) == Commitment.REQUEST
        ? StoreStatus.SUCCESS
        : NO_SUCH_ACTION;
  }

  private static Optional<Commitment> sound(byte[] data, String transferSyntax) {
    try {
      Commitment request = CommitmentDecoder.decode(data, transferSyntax);
      boolean sound =
          Uids.sound(request.transaction())
              && !request.referenced().isEmpty()
              && request.referenced().stream().allMatch(InstanceName::sound);
      return sound ? Optional.of(request) : Optional.empty();
    } catch (AssociationException e) {
      return Optional.empty();
    }
  }

  private static Command response(Command request, int status) {
    return Command.of(Command.N_ACTION_RQ | Command.RESPONSE)
        .withUid(Command.AFFECTED_SOP_CLASS, Uids.COMMITMENT)
        .with(Command.RESPONDED_TO, request.number(Command.MESSAGE_ID).orElse(0))
        .with(Command.STATUS, status)
        .withUid(Command.AFFECTED_SOP_INSTANCE, Uids.COMMITMENT_INSTANCE)
        .with(Command.ACTION_TYPE, request.number(Command.ACTION_TYPE).orElse(0));
  }

  /** Returns what of a request is kept. */
  static Commitment look(Commitment request, ReceivedObjects objects) {
    List<InstanceName> kept = new ArrayList<>();
    List<Commitment.Failed> failed = new ArrayList<>();
    for (InstanceName one : request.referenced()) {
      int reason = objects.whyNotKept(one);
      if (reason == 0) {
        kept.add(one);
      } else {
        failed.add(new Commitment.Failed(one, reason));
      }
    }
    return new Commitment(request.transaction(), kept, failed);
  }

  private Commitment said(Commitment request) {
    Commitment report = look(request, objects);
    say(
        report.failed().isEmpty() ? NetworkEvents.Kind.DONE : NetworkEvents.Kind.REFUSED,
        report.referenced().size()
            + " objects committed, "
            + report.failed().size()
            + " not, in transaction "
            + report.transaction());
    return report;
  }

  private void report(PresentationContext context, Commitment report) throws IOException {
    reported++;
    association.send(
        context,
        CommitmentMessages.report(report, reported),
        new ByteArrayInputStream(CommitmentEncoder.encode(report, context.transferSyntax())));
  }

  /** Says so when the peer left without having taken a report. */
  void end() {
    if (heard < reported) {
      say(
          NetworkEvents.Kind.REFUSED,
          "left without taking the report of its commitment; if it waits for a connection of its"
              + " own, name its address with --commit-to");
    }
  }

  private void say(NetworkEvents.Kind kind, String line) {
    events.event(kind, association.peer() + ": " + line);
  }
}

package org.isopach.dicom.network;

import java.io.IOException;
import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;

/**
 * Asks a peer to commit itself to keep objects it was sent (storage commitment, push model; PS3.4,
 * annex J, from memory), and waits for its reports: on the same association, and on a port of ours
 * when one is given.
 */
public final class CommitmentClient {
  private static final int MOST_AT_ONCE = 1000;
  private static final int POLL_MILLIS = 100;
  private static final int UUID_BYTES = 16;

  private final CallerSettings settings;
  private final NetworkEvents events;
  private final AwaitedReports reports = new AwaitedReports();
  private int messageId;

  private CommitmentClient(CallerSettings settings, NetworkEvents events) {
    this.settings = settings;
    this.events = events;
  }

  /**
   * Asks and waits, for as long as the settings say after the last request.
   *
   * @param objects what to ask for, thousand by thousand
   * @param port where the peer may call us to report; empty when it shall do so on our association
   * @throws IOException when the port is taken
   */
  public static CommitResult commit(
      CallerSettings settings,
      List<SentObject> objects,
      Optional<ListenerSettings> port,
      NetworkEvents events)
      throws IOException {
    CommitmentClient client = new CommitmentClient(settings, events);
    if (port.isEmpty()) {
      client.run(objects, false);
    } else {
      try (AssociationServer server =
          AssociationServer.start(port.get(), events, Offer.REPORTS, client::hear)) {
        events.event(NetworkEvents.Kind.DONE, "waiting for reports on port " + server.port());
        client.run(objects, true);
      }
    }
    return client.result(objects);
  }

  /**
   * Returns settings for a port on which only who has the title of the peer we ask may call, from
   * anywhere: archives report from other addresses than they are asked at. Only a report on our own
   * transaction counts.
   */
  public static ListenerSettings port(CallerSettings settings, int port, boolean mustProve) {
    return new ListenerSettings(
        port,
        settings.callingAet(),
        Path.of(""),
        Set.of(settings.to().aet()),
        List.of(),
        ListenerSettings.ASSOCIATIONS,
        0,
        settings.patience(),
        settings.tls(),
        mustProve);
  }

  private void run(List<SentObject> objects, boolean elsewhereToo) {
    List<InstanceName> names = objects.stream().map(SentObject::name).distinct().toList();
    try {
      ask(names, elsewhereToo);
      reports.await(elsewhereToo ? end() : System.nanoTime());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private long end() {
    return System.nanoTime() + settings.patience().toNanos();
  }

  /** Asks for all; waits here unless the connection breaks and reports may come elsewhere. */
  private void ask(List<InstanceName> names, boolean elsewhereToo) {
    for (int at = 0; at < names.size(); at += MOST_AT_ONCE) {
      reports.expect(transaction(), names.subList(at, Math.min(names.size(), at + MOST_AT_ONCE)));
    }
    try (Association association =
        Caller.call(settings, CommitmentMessages.proposal(), List.of())) {
      PresentationContext context =
          association
              .context(Uids.COMMITMENT)
              .orElseThrow(
                  () -> AssociationException.peer("the peer does not offer storage commitment"));
      for (Commitment request : reports.requests()) {
        AwaitedReports.ask(association, context, ++messageId, request);
        awaitAnswer(association, request.transaction());
      }
      awaitReports(association);
    } catch (IOException e) {
      events.event(NetworkEvents.Kind.REFUSED, settings.to() + ": " + e.getMessage());
      if (elsewhereToo && messageId > 0) {
        return;
      }
      reports.giveUpAll("commitment could not be asked for: " + e.getMessage());
    }
  }

  /** The report may come before the answer, and that on the request before in between. */
  private void awaitAnswer(Association association, String transaction) throws IOException {
    while (true) {
      Association.Message message =
          association
              .receive()
              .orElseThrow(() -> AssociationException.peer("the peer released within a request"));
      if (message.command().number(Command.FIELD).orElse(0) == Command.N_EVENT_REPORT_RQ) {
        reports.answer(association, message);
        continue;
      }
      Responses.Answer answer = Responses.checked(message, Command.N_ACTION_RQ, messageId);
      if (answer.status() != StoreStatus.SUCCESS) {
        String why =
            String.format("commitment was refused with status %04X", answer.status())
                + (answer.comment().isEmpty() ? "" : " " + answer.comment());
        reports.giveUp(transaction, why);
      }
      return;
    }
  }

  private void awaitReports(Association association) throws IOException {
    long end = end();
    while (reports.due() && System.nanoTime() < end) {
      if (association.poll(POLL_MILLIS)) {
        Optional<Association.Message> message = association.receive();
        if (message.isEmpty()) {
          return;
        }
        reports.answer(association, message.get());
      }
    }
    association.release();
  }

  /** Answers reports that come on an association of their own. */
  private String hear(Association association) throws IOException {
    int heard = 0;
    Optional<Association.Message> message = association.receive();
    while (message.isPresent()) {
      Command command = message.get().command();
      if (command.number(Command.FIELD).orElse(0) == Command.C_ECHO_RQ) {
        association.send(message.get().context(), Responses.echo(command));
      } else {
        reports.answer(association, message.get());
        heard++;
      }
      message = association.receive();
    }
    return heard + " reports";
  }

  private CommitResult result(List<SentObject> objects) {
    int committed = 0;
    List<SendResult.Failure> failures = new ArrayList<>();
    for (SentObject one : objects) {
      if (reports.committed(one.name())) {
        committed++;
      } else {
        String why = "not committed: " + reports.reason(one.name());
        failures.add(new SendResult.Failure(one.file(), why));
        events.event(NetworkEvents.Kind.REFUSED, one.file() + ": " + why);
      }
    }
    return new CommitResult(committed, failures);
  }

  /** A UID nobody else has (PS3.5, B.2). */
  private static String transaction() {
    UUID uuid = UUID.randomUUID();
    byte[] bytes =
        ByteBuffer.allocate(UUID_BYTES)
            .putLong(uuid.getMostSignificantBits())
            .putLong(uuid.getLeastSignificantBits())
            .array();
    return "2.25." + new BigInteger(1, bytes);
  }
}

package org.isopach.dicom.network;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/**
 * Answers the C-ECHO and C-STORE requests of one association, and perhaps those for storage
 * commitment, one after another. A response is sent once the object is on the disk under its final
 * name, so a sender is held back by our disk.
 */
final class StoreSession {
  private final Association association;
  private final ReceivedObjects objects;
  private final long mostBytes;
  private final NetworkEvents events;
  private Optional<CommitmentProvider> commitment = Optional.empty();
  private int stored;

  StoreSession(
      Association association, ReceivedObjects objects, long mostBytes, NetworkEvents events) {
    this.association = association;
    this.objects = objects;
    this.mostBytes = mostBytes;
    this.events = events;
  }

  /** Has requests for storage commitment answered. */
  StoreSession committing(CommitmentProvider provider) {
    commitment = Optional.of(provider);
    return this;
  }

  /** Answers until the peer releases; returns how many objects were stored. */
  int run() throws IOException {
    try {
      Optional<Association.Message> message = association.receive();
      while (message.isPresent()) {
        answer(message.get());
        message = association.receive();
      }
      return stored;
    } finally {
      commitment.ifPresent(CommitmentProvider::end);
    }
  }

  /** Answers one request. */
  void answer(Association.Message message) throws IOException {
    int field = message.command().number(Command.FIELD).orElse(0);
    boolean data = message.command().hasDataSet();
    String sopClass = message.context().abstractSyntax();
    boolean known =
        switch (sopClass) {
          case Uids.VERIFICATION -> field == Command.C_ECHO_RQ && !data;
          case Uids.COMMITMENT -> commitment.isPresent() && commitment.get().take(message);
          default -> field == Command.C_STORE_RQ && data;
        };
    boolean tooLateToCancel = field == Command.C_CANCEL_RQ && !data;
    if (known && field == Command.C_ECHO_RQ) {
      association.send(message.context(), response(message, StoreStatus.success()));
    } else if (known && field == Command.C_STORE_RQ) {
      store(message);
    } else if (!known && !tooLateToCancel) {
      throw AssociationException.broken(
          AssociationException.INVALID_PARAMETER,
          String.format("command %04X is not served in this presentation context", field));
    }
  }

  private void store(Association.Message message) throws IOException {
    String sopClass = message.command().text(Command.AFFECTED_SOP_CLASS);
    String sopInstance = message.command().text(Command.AFFECTED_SOP_INSTANCE);
    StoreStatus status;
    if (!Uids.sound(sopInstance)) {
      drain(message.context());
      status = new StoreStatus(StoreStatus.INVALID_INSTANCE, "SOP Instance UID is not a UID");
    } else if (!sopClass.equals(message.context().abstractSyntax())) {
      drain(message.context());
      status = new StoreStatus(StoreStatus.MISMATCH, "SOP class is not that of the context");
    } else {
      status = receive(message.context(), sopClass, sopInstance);
    }
    if (status.good()) {
      stored++;
    }
    tell(status, sopInstance);
    association.send(message.context(), response(message, status));
  }

  private void drain(PresentationContext context) throws IOException {
    long[] size = {0};
    association.receiveData(
        context,
        piece -> {
          size[0] += piece.remaining();
          bound(size[0]);
        });
  }

  private void bound(long bytes) throws AssociationException {
    if (bytes > mostBytes) {
      throw AssociationException.broken(
          AssociationException.UNSPECIFIED, "an object is longer than " + mostBytes + " bytes");
    }
  }

  private StoreStatus receive(PresentationContext context, String sopClass, String sopInstance)
      throws IOException {
    Path part = objects.newPart();
    byte[] meta = FileMeta.of(sopClass, sopInstance, context.transferSyntax());
    try (PartWriter writer = objects.writer(part, meta)) {
      association.receiveData(
          context,
          piece -> {
            writer.write(piece);
            bound(writer.received());
          });
      Optional<IOException> refused = writer.finish();
      return refused.isPresent() ? full(refused.get()) : keep(part, sopClass, sopInstance);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private StoreStatus keep(Path part, String sopClass, String sopInstance) {
    try {
      return objects.keep(part, sopClass, sopInstance);
    } catch (IOException e) {
      return full(e);
    }
  }

  private StoreStatus full(IOException why) {
    events.event(NetworkEvents.Kind.REFUSED, "cannot write to the disk: " + why.getMessage());
    return new StoreStatus(StoreStatus.OUT_OF_RESOURCES, "cannot write to the disk");
  }

  private static Command response(Association.Message message, StoreStatus status) {
    Command request = message.command();
    Command answer =
        Command.of(request.number(Command.FIELD).orElse(0) | Command.RESPONSE)
            .withUid(Command.AFFECTED_SOP_CLASS, message.context().abstractSyntax())
            .with(Command.RESPONDED_TO, request.number(Command.MESSAGE_ID).orElse(0))
            .with(Command.STATUS, status.code());
    String instance = request.text(Command.AFFECTED_SOP_INSTANCE);
    if (Uids.sound(instance)) {
      answer = answer.withUid(Command.AFFECTED_SOP_INSTANCE, instance);
    }
    return status.good() ? answer : answer.withText(Command.ERROR_COMMENT, status.comment());
  }

  private void tell(StoreStatus status, String sopInstance) {
    String uid = Uids.sound(sopInstance) ? sopInstance : "an object without a sound UID";
    if (status.good()) {
      events.event(NetworkEvents.Kind.DONE, association.peer() + ": stored " + uid);
    } else {
      events.event(
          NetworkEvents.Kind.REFUSED,
          String.format(
              "%s: refused %s with status %04X: %s",
              association.peer(), uid, status.code(), status.comment()));
    }
  }
}

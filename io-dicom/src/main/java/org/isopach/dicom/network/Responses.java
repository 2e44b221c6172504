package org.isopach.dicom.network;

import java.io.IOException;

/** Waits for answers to requests (PS3.7, 9.1). */
final class Responses {
  private Responses() {}

  /** An answer. */
  record Answer(Association.Message message) {
    int status() {
      return message.command().number(Command.STATUS).orElse(StoreStatus.NOT_UNDERSTOOD);
    }

    String comment() {
      return Printable.of(message.command().text(Command.ERROR_COMMENT));
    }
  }

  /** Returns the answer to a C-ECHO request. */
  static Command echo(Command request) {
    return Command.of(Command.C_ECHO_RQ | Command.RESPONSE)
        .withUid(Command.AFFECTED_SOP_CLASS, Uids.VERIFICATION)
        .with(Command.RESPONDED_TO, request.number(Command.MESSAGE_ID).orElse(0))
        .with(Command.STATUS, StoreStatus.SUCCESS);
  }

  /**
   * Waits for the answer to a request.
   *
   * @throws AssociationException when something else comes
   */
  static Answer await(Association association, int request, int messageId) throws IOException {
    Association.Message message =
        association
            .receive()
            .orElseThrow(() -> AssociationException.peer("the peer released within a request"));
    return checked(message, request, messageId);
  }

  /**
   * Returns a message as the answer to a request.
   *
   * @throws AssociationException when it is something else
   */
  static Answer checked(Association.Message message, int request, int messageId)
      throws AssociationException {
    Command command = message.command();
    if (command.number(Command.FIELD).orElse(0) != (request | Command.RESPONSE)
        || command.number(Command.RESPONDED_TO).orElse(-1) != messageId) {
      throw AssociationException.broken(
          AssociationException.UNEXPECTED_PDU, "the answer is not to the request");
    }
    return new Answer(message);
  }
}

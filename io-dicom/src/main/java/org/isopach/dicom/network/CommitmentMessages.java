package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import org.isopach.dicom.data.TransferSyntax;

/** What both sides of storage commitment say (PS3.7, 10.1; PS3.4, annex J; from memory). */
final class CommitmentMessages {
  private static final int LARGEST = 4 << 20;

  private CommitmentMessages() {}

  static List<PresentationContext> proposal() {
    return List.of(
        new PresentationContext(
            1,
            Uids.COMMITMENT,
            List.of(TransferSyntax.EXPLICIT_LITTLE.uid(), TransferSyntax.IMPLICIT_LITTLE.uid()),
            0));
  }

  /**
   * Returns the data set of a message.
   *
   * @throws AssociationException when it is longer than 4 MiB, which is some 25000 objects
   */
  static byte[] dataSet(Association association, PresentationContext context) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    association.receiveData(
        context,
        piece -> {
          if (bytes.size() + piece.remaining() > LARGEST) {
            throw AssociationException.broken(
                AssociationException.UNSPECIFIED, "a data set about commitment is too long");
          }
          byte[] copy = new byte[piece.remaining()];
          piece.get(copy);
          bytes.writeBytes(copy);
        });
    return bytes.toByteArray();
  }

  static Command request(int messageId) {
    return Command.of(Command.N_ACTION_RQ)
        .withUid(Command.REQUESTED_SOP_CLASS, Uids.COMMITMENT)
        .with(Command.MESSAGE_ID, messageId)
        .withUid(Command.REQUESTED_SOP_INSTANCE, Uids.COMMITMENT_INSTANCE)
        .with(Command.ACTION_TYPE, Commitment.REQUEST);
  }

  static Command report(Commitment report, int messageId) {
    return Command.of(Command.N_EVENT_REPORT_RQ)
        .withUid(Command.AFFECTED_SOP_CLASS, Uids.COMMITMENT)
        .with(Command.MESSAGE_ID, messageId)
        .withUid(Command.AFFECTED_SOP_INSTANCE, Uids.COMMITMENT_INSTANCE)
        .with(Command.EVENT_TYPE, report.eventType());
  }

  /** Returns the answer to a report. */
  static Command heard(Command report, int status) {
    return Command.of(Command.N_EVENT_REPORT_RQ | Command.RESPONSE)
        .withUid(Command.AFFECTED_SOP_CLASS, Uids.COMMITMENT)
        .with(Command.RESPONDED_TO, report.number(Command.MESSAGE_ID).orElse(0))
        .with(Command.STATUS, status)
        .withUid(Command.AFFECTED_SOP_INSTANCE, Uids.COMMITMENT_INSTANCE)
        .with(Command.EVENT_TYPE, report.number(Command.EVENT_TYPE).orElse(0));
  }
}

package org.isopach.dicom.network;

import java.io.IOException;
import java.net.InetAddress;
import java.util.List;

/** Opens an association on the answering side, or rejects it with the reason (PS3.8, 9.3.4). */
final class Acceptor {
  private static final int PERMANENT = 1;
  private static final int TRANSIENT = 2;
  private static final int BY_USER = 1;
  private static final int BY_PRESENTATION = 3;
  private static final int CALLING_UNKNOWN = 3;
  private static final int CALLED_UNKNOWN = 7;
  private static final int LIMIT_EXCEEDED = 2;

  private Acceptor() {}

  /**
   * Reads the request and answers it.
   *
   * @param settings our title, and who may call
   * @param offer what is served
   * @throws AssociationException when it was rejected, or the request is malformed
   */
  static Association accept(
      PduChannel channel, InetAddress from, ListenerSettings settings, Offer offer)
      throws IOException {
    AssociateBody asked = request(channel);
    String peer = Printable.of(asked.callingAet()) + "@" + from.getHostAddress();
    if (!asked.calledAet().equals(settings.aet())) {
      reject(channel, PERMANENT, BY_USER, CALLED_UNKNOWN);
      throw AssociationException.peer(
          peer + " was rejected: it called " + Printable.of(asked.calledAet()));
    }
    if (!settings.callers().isEmpty() && !settings.callers().contains(asked.callingAet())) {
      reject(channel, PERMANENT, BY_USER, CALLING_UNKNOWN);
      throw AssociationException.peer(peer + " was rejected: its title may not call");
    }
    List<PresentationContext> answers = offer.answer(asked.contexts());
    AssociateBody answer =
        new AssociateBody(
            asked.calledAet(),
            asked.callingAet(),
            answers,
            PduChannel.LARGEST_DATA,
            offer.roles(asked.storageRoles()));
    channel.write(Pdu.ASSOCIATE_AC, AssociateCodec.encode(answer, true));
    channel.flush();
    return new Association(channel, peer, asked.callingAet(), answers, asked.largestPdu());
  }

  /** Tells a peer that there are too many associations at the moment. */
  static void rejectForNow(PduChannel channel) throws IOException {
    request(channel);
    reject(channel, TRANSIENT, BY_PRESENTATION, LIMIT_EXCEEDED);
  }

  private static AssociateBody request(PduChannel channel) throws IOException {
    Pdu first = channel.read();
    if (first.type() != Pdu.ASSOCIATE_RQ) {
      throw AssociationException.broken(
          AssociationException.UNEXPECTED_PDU, "no association was asked for");
    }
    try {
      return AssociateCodec.decode(first.body());
    } catch (AssociationException e) {
      if (e.rejectedBy() != 0) {
        reject(channel, PERMANENT, e.rejectedBy(), e.reason());
      }
      throw e;
    }
  }

  private static void reject(PduChannel channel, int result, int source, int reason)
      throws IOException {
    channel.write(Pdu.ASSOCIATE_RJ, new byte[] {0, (byte) result, (byte) source, (byte) reason});
    channel.flush();
    channel.closeSoftly();
  }
}

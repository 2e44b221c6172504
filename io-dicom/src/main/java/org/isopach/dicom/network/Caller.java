package org.isopach.dicom.network;

import java.io.IOException;
import java.net.ConnectException;
import java.net.InetSocketAddress;
import java.net.NoRouteToHostException;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import javax.net.ssl.SSLException;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import org.isopach.dicom.data.TransferSyntax;

/** Opens associations on the asking side. */
final class Caller {
  private static final int REJECTED_FOR_GOOD = 1;

  private Caller() {}

  /**
   * Asks for an association.
   *
   * @param proposals contexts with abstract syntax and transfer syntaxes
   * @param storageRoles SOP classes we will store ourselves, for C-GET
   * @throws AssociationException when it is rejected, or nobody answers
   * @throws IOException when the connection breaks
   */
  static Association call(
      CallerSettings settings, List<PresentationContext> proposals, List<String> storageRoles)
      throws IOException {
    try {
      return open(connect(settings), settings, proposals, storageRoles);
    } catch (UnknownHostException e) {
      throw AssociationException.peer("the host '" + settings.to().host() + "' is not known");
    } catch (ConnectException | NoRouteToHostException e) {
      throw AssociationException.peer("nobody listens there: " + e.getMessage());
    } catch (SocketTimeoutException e) {
      throw AssociationException.peer("no answer within " + settings.patience().toSeconds() + " s");
    } catch (SSLException e) {
      String why = "the connection cannot be secured: " + e.getMessage();
      throw BrokenHandshake.is(e)
          ? AssociationException.peer(why)
          : AssociationException.lasting(why);
    }
  }

  private static Association open(
      PduChannel channel,
      CallerSettings settings,
      List<PresentationContext> proposals,
      List<String> storageRoles)
      throws IOException {
    try {
      AssociateBody body =
          new AssociateBody(
              settings.to().aet(),
              settings.callingAet(),
              proposals,
              PduChannel.LARGEST_DATA,
              storageRoles);
      channel.write(Pdu.ASSOCIATE_RQ, AssociateCodec.encode(body, false));
      channel.flush();
      AssociateBody answer = answer(channel.read());
      return new Association(
          channel,
          settings.to().toString(),
          settings.to().aet(),
          named(proposals, answer),
          answer.largestPdu());
    } catch (AssociationException e) {
      if (e.toBeAborted()) {
        channel.abort(e.reason());
      }
      channel.close();
      throw e;
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  private static PduChannel connect(CallerSettings settings) throws IOException {
    Destination to = settings.to();
    int millis = (int) settings.patience().toMillis();
    Socket plain = new Socket();
    try {
      plain.connect(new InetSocketAddress(to.host(), to.port()), millis);
      plain.setSoTimeout(millis);
      if (settings.tls().isEmpty()) {
        return new PduChannel(plain, plain);
      }
      SSLSocket secure =
          (SSLSocket)
              settings
                  .tls()
                  .get()
                  .getSocketFactory()
                  .createSocket(plain, to.host(), to.port(), true);
      SSLParameters parameters = secure.getSSLParameters();
      parameters.setEndpointIdentificationAlgorithm("HTTPS");
      secure.setSSLParameters(parameters);
      secure.startHandshake();
      return new PduChannel(secure, plain);
    } catch (IOException e) {
      plain.close();
      throw e;
    }
  }

  private static AssociateBody answer(Pdu pdu) throws AssociationException {
    return switch (pdu.type()) {
      case Pdu.ASSOCIATE_AC -> AssociateCodec.decode(pdu.body());
      case Pdu.ASSOCIATE_RJ -> throw rejected(pdu);
      case Pdu.ABORT -> throw AssociationException.peer("the peer aborted the association");
      default ->
          throw AssociationException.broken(
              AssociationException.UNEXPECTED_PDU, "answered by type " + pdu.type());
    };
  }

  private static AssociationException rejected(Pdu pdu) {
    if (pdu.body().remaining() < Integer.BYTES) {
      return AssociationException.peer("rejected: no reason given");
    }
    String message = "rejected: " + why(pdu);
    return pdu.body().get(1) == REJECTED_FOR_GOOD
        ? AssociationException.lasting(message)
        : AssociationException.peer(message);
  }

  private static String why(Pdu pdu) {
    int source = pdu.body().get(2);
    int reason = pdu.body().get(3);
    if (source == 1) {
      return switch (reason) {
        case 3 -> "our title is not known there";
        case 7 -> "the title called is not known there";
        default -> "source 1, reason " + reason;
      };
    }
    return source == 3 && reason == 2
        ? "too many associations there at the moment"
        : "source " + source + ", reason " + reason;
  }

  private static List<PresentationContext> named(
      List<PresentationContext> proposals, AssociateBody answer) throws AssociationException {
    Map<Integer, PresentationContext> asked = new TreeMap<>();
    proposals.forEach(one -> asked.put(one.id(), one));
    List<PresentationContext> named = new ArrayList<>();
    for (PresentationContext one : answer.contexts()) {
      PresentationContext proposal = asked.get(one.id());
      if (proposal == null
          || (one.accepted() && !proposal.transferSyntaxes().contains(one.transferSyntax()))) {
        throw AssociationException.broken(
            AssociationException.INVALID_PARAMETER, "the peer accepted what was not proposed");
      }
      named.add(
          new PresentationContext(
              one.id(), proposal.abstractSyntax(), one.transferSyntaxes(), one.result()));
    }
    return named;
  }

  /**
   * Asks whether somebody is there (C-ECHO).
   *
   * @throws IOException when not, with the reason
   */
  static void echo(CallerSettings settings) throws IOException {
    List<PresentationContext> proposals =
        List.of(
            new PresentationContext(
                1, Uids.VERIFICATION, List.of(TransferSyntax.IMPLICIT_LITTLE.uid()), 0));
    try (Association association = call(settings, proposals, List.of())) {
      PresentationContext context =
          association
              .context(Uids.VERIFICATION)
              .orElseThrow(() -> AssociationException.peer("verification is not served there"));
      association.send(
          context,
          Command.of(Command.C_ECHO_RQ)
              .withUid(Command.AFFECTED_SOP_CLASS, Uids.VERIFICATION)
              .with(Command.MESSAGE_ID, 1));
      int status = Responses.await(association, Command.C_ECHO_RQ, 1).status();
      if (status != StoreStatus.SUCCESS) {
        throw AssociationException.peer(String.format("C-ECHO was answered by %04X", status));
      }
      association.release();
    }
  }
}

package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.DataInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.List;
import org.isopach.dicom.data.TransferSyntax;

/** A peer that may send anything. */
final class RawPeer implements Closeable {
  static final String TOMOGRAPHY = "1.2.840.10008.5.1.4.1.1.77.1.5.4";

  private final Socket socket;

  RawPeer(int port) throws IOException {
    this(new Socket(InetAddress.getLoopbackAddress(), port));
  }

  RawPeer(Socket socket) throws IOException {
    this.socket = socket;
    socket.setSoTimeout((int) Peers.PATIENCE.toMillis());
  }

  /** Asks for an association with one context and returns the answer's bytes. */
  byte[] associate(String called, String abstractSyntax) throws IOException {
    return associate(called, abstractSyntax, TransferSyntax.EXPLICIT_LITTLE);
  }

  byte[] associate(String called, String abstractSyntax, TransferSyntax syntax) throws IOException {
    PresentationContext context =
        new PresentationContext(1, abstractSyntax, List.of(syntax.uid()), 0);
    AssociateBody body = new AssociateBody(called, "TERN", List.of(context), 0, List.of());
    pdu(Pdu.ASSOCIATE_RQ, AssociateCodec.encode(body, false));
    return read();
  }

  void pdu(int type, byte[] body) throws IOException {
    bytes(
        ByteBuffer.allocate(6 + body.length)
            .put((byte) type)
            .put((byte) 0)
            .putInt(body.length)
            .put(body)
            .array());
  }

  /** Sends one value in a P-DATA of its own. */
  void value(int context, int control, byte[] value) throws IOException {
    pdu(
        Pdu.P_DATA,
        ByteBuffer.allocate(6 + value.length)
            .putInt(value.length + 2)
            .put((byte) context)
            .put((byte) control)
            .put(value)
            .array());
  }

  void storeRequest(String sopClass, String sopInstance) throws IOException {
    value(
        1,
        3,
        Command.of(Command.C_STORE_RQ)
            .withUid(Command.AFFECTED_SOP_CLASS, sopClass)
            .with(Command.MESSAGE_ID, 7)
            .with(Command.PRIORITY, 0)
            .with(Command.DATA_SET_TYPE, 1)
            .withUid(Command.AFFECTED_SOP_INSTANCE, sopInstance)
            .encode());
  }

  void bytes(byte[] bytes) throws IOException {
    socket.getOutputStream().write(bytes);
    socket.getOutputStream().flush();
  }

  /** Reads one unit: its type, then its body. */
  byte[] read() throws IOException {
    DataInputStream in = new DataInputStream(socket.getInputStream());
    int type = in.readUnsignedByte();
    in.readByte();
    byte[] body = new byte[in.readInt()];
    in.readFully(body);
    return ByteBuffer.allocate(1 + body.length).put((byte) type).put(body).array();
  }

  /** Reads a response and returns its status. */
  int status() throws IOException {
    return command().number(Command.STATUS).orElseThrow();
  }

  /** Reads a command that comes in one piece. */
  Command command() throws IOException {
    return Command.decode(piece());
  }

  /** Reads one P-DATA of one value and returns what it holds. */
  byte[] piece() throws IOException {
    byte[] unit = read();
    return Arrays.copyOfRange(unit, 7, unit.length);
  }

  /** Reads what the peer asks for, and agrees to all of it in one transfer syntax. */
  AssociateBody accept(TransferSyntax syntax) throws IOException {
    byte[] unit = read();
    AssociateBody asked = AssociateCodec.decode(ByteBuffer.wrap(unit, 1, unit.length - 1).slice());
    List<PresentationContext> agreed =
        asked.contexts().stream()
            .map(one -> new PresentationContext(one.id(), "", List.of(syntax.uid()), 0))
            .toList();
    AssociateBody answer =
        new AssociateBody(asked.calledAet(), asked.callingAet(), agreed, 0, List.of());
    pdu(Pdu.ASSOCIATE_AC, AssociateCodec.encode(answer, true));
    return asked;
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}

package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * An open association: whole messages, in pieces that are checked one by one (PS3.7, 6.3; PS3.8,
 * 9.3.5 and annex E). Data sets are streamed, never held. For one thread, but for {@link #close()}.
 */
final class Association implements Closeable {
  private static final int LARGEST_COMMAND = 16 * 1024;
  private static final int VALUE_HEAD = 6;
  private static final int SMALLEST_VALUE = 1024;
  private static final int COMMAND = 1;
  private static final int LAST = 2;

  private final PduChannel channel;
  private final String peer;
  private final Map<Integer, PresentationContext> contexts = new TreeMap<>();
  private final int largestValue;
  private ByteBuffer pending = ByteBuffer.allocate(0);

  /**
   * Makes an association of what was agreed.
   *
   * @param agreed accepted contexts with their abstract syntaxes; others are left out
   * @param peerLimit the longest P-DATA the peer takes; 0 for no limit
   */
  Association(
      PduChannel channel, String peer, Iterable<PresentationContext> agreed, long peerLimit) {
    this.channel = channel;
    this.peer = peer;
    for (PresentationContext context : agreed) {
      if (context.accepted()) {
        contexts.put(context.id(), context);
      }
    }
    long limit =
        peerLimit == 0 ? PduChannel.LARGEST_DATA : Math.min(peerLimit, PduChannel.LARGEST_DATA);
    this.largestValue = (int) Math.max(SMALLEST_VALUE, limit - VALUE_HEAD) & ~1;
  }

  /** A command and the presentation context it came in. */
  record Message(PresentationContext context, Command command) {}

  /** Takes pieces of a data set. */
  @FunctionalInterface
  interface Sink {
    /** Takes bytes; the buffer is not to be kept. */
    void take(ByteBuffer piece) throws IOException;
  }

  private record Value(int context, boolean command, boolean last, ByteBuffer bytes) {}

  String peer() {
    return peer;
  }

  /** Returns the accepted context for a SOP class in a transfer syntax. */
  Optional<PresentationContext> context(String abstractSyntax, String transferSyntax) {
    return contexts.values().stream()
        .filter(
            one ->
                one.abstractSyntax().equals(abstractSyntax)
                    && one.transferSyntax().equals(transferSyntax))
        .findFirst();
  }

  /** Returns an accepted context for a SOP class in whatever transfer syntax. */
  Optional<PresentationContext> context(String abstractSyntax) {
    return contexts.values().stream()
        .filter(one -> one.abstractSyntax().equals(abstractSyntax))
        .findFirst();
  }

  /**
   * Waits for the next message.
   *
   * @return empty when the peer asks for release; the answer has then been given
   */
  Optional<Message> receive() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    int context = -1;
    while (true) {
      Optional<Value> next = next(context < 0);
      if (next.isEmpty()) {
        return Optional.empty();
      }
      Value value = next.get();
      if (!value.command() || (context >= 0 && value.context() != context)) {
        throw unexpected("a piece of a data set came where a command was due");
      }
      context = value.context();
      if (bytes.size() + value.bytes().remaining() > LARGEST_COMMAND) {
        throw unexpected("a command is longer than " + LARGEST_COMMAND + " bytes");
      }
      byte[] piece = new byte[value.bytes().remaining()];
      value.bytes().get(piece);
      bytes.writeBytes(piece);
      if (value.last()) {
        return Optional.of(new Message(contexts.get(context), Command.decode(bytes.toByteArray())));
      }
    }
  }

  /** Hands the data set of the message just received to a sink, piece by piece. */
  void receiveData(PresentationContext context, Sink sink) throws IOException {
    boolean last = false;
    while (!last) {
      Value value = next(false).orElseThrow();
      if (value.command() || value.context() != context.id()) {
        throw unexpected("a command came within a data set");
      }
      sink.take(value.bytes());
      last = value.last();
    }
  }

  private Optional<Value> next(boolean mayRelease) throws IOException {
    while (!pending.hasRemaining()) {
      Pdu pdu = channel.read();
      switch (pdu.type()) {
        case Pdu.P_DATA -> pending = pdu.body();
        case Pdu.ABORT -> throw AssociationException.peer("the peer aborted the association");
        case Pdu.RELEASE_RQ -> {
          if (!mayRelease) {
            throw unexpected("a release was asked for within a message");
          }
          channel.write(Pdu.RELEASE_RP, new byte[Integer.BYTES]);
          channel.flush();
          channel.closeSoftly();
          return Optional.empty();
        }
        default -> throw unexpected("a protocol data unit of type " + pdu.type() + " came");
      }
    }
    return Optional.of(value());
  }

  private Value value() throws AssociationException {
    if (pending.remaining() < VALUE_HEAD) {
      throw malformed("it ends within the head of a value");
    }
    long length = Integer.toUnsignedLong(pending.getInt());
    if (length < 2 || length > pending.remaining()) {
      throw malformed("a value claims " + length + " of " + pending.remaining() + " bytes");
    }
    int context = Byte.toUnsignedInt(pending.get());
    int control = Byte.toUnsignedInt(pending.get());
    if (!contexts.containsKey(context)) {
      throw malformed("presentation context " + context + " was not agreed on");
    }
    ByteBuffer bytes = pending.slice().limit((int) length - 2);
    pending.position(pending.position() + (int) length - 2);
    return new Value(context, (control & COMMAND) != 0, (control & LAST) != 0, bytes);
  }

  /** Sends a command that no data set follows. */
  void send(PresentationContext context, Command command) throws IOException {
    byte[] bytes = command.with(Command.DATA_SET_TYPE, Command.NO_DATA_SET).encode();
    channel.writeData(context.id(), COMMAND | LAST, bytes, bytes.length);
    channel.flush();
  }

  /** Sends a command and its data set, read to the end of a stream. */
  void send(PresentationContext context, Command command, InputStream data) throws IOException {
    byte[] bytes = command.with(Command.DATA_SET_TYPE, Command.WITH_DATA_SET).encode();
    channel.writeData(context.id(), COMMAND | LAST, bytes, bytes.length);
    byte[] piece = new byte[largestValue];
    byte[] ahead = new byte[largestValue];
    int size = data.readNBytes(piece, 0, largestValue);
    while (true) {
      int more = size < largestValue ? 0 : data.readNBytes(ahead, 0, largestValue);
      channel.writeData(context.id(), more == 0 ? LAST : 0, piece, size);
      if (more == 0) {
        break;
      }
      byte[] swap = piece;
      piece = ahead;
      ahead = swap;
      size = more;
    }
    channel.flush();
  }

  /** Asks for release, waits for the answer and closes. */
  void release() throws IOException {
    channel.write(Pdu.RELEASE_RQ, new byte[Integer.BYTES]);
    channel.flush();
    Pdu answer = channel.read();
    channel.close();
    if (answer.type() != Pdu.RELEASE_RP) {
      throw AssociationException.peer("a release was answered by type " + answer.type());
    }
  }

  /** Aborts; nothing is thrown. */
  void abort(int reason) {
    channel.abort(reason);
  }

  @Override
  public void close() {
    channel.close();
  }

  private static AssociationException malformed(String what) {
    return AssociationException.broken(
        AssociationException.INVALID_PARAMETER, "P-DATA is malformed: " + what);
  }

  private static AssociationException unexpected(String what) {
    return AssociationException.broken(AssociationException.UNEXPECTED_PDU, what);
  }
}

package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.util.Arrays;
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
  private static final int SMALLEST_PDU = VALUE_HEAD + 2;
  private static final int MOST_BEFORE_RELEASE = 64;
  private static final int COMMAND = 1;
  private static final int LAST = 2;

  private final PduChannel channel;
  private final String peer;
  private final Map<Integer, PresentationContext> contexts = new TreeMap<>();
  private final int largestValue;
  private final String title;
  private ByteBuffer pending = ByteBuffer.allocate(0);
  private boolean ended;

  /**
   * Makes an association of what was agreed.
   *
   * @param peer who it is, for lines of a log
   * @param title the peer's own title
   * @param agreed accepted contexts with their abstract syntaxes; others are left out
   * @param peerLimit the longest P-DATA the peer takes; 0 for no limit
   * @throws AssociationException when the peer takes no P-DATA at all
   */
  Association(
      PduChannel channel,
      String peer,
      String title,
      Iterable<PresentationContext> agreed,
      long peerLimit)
      throws AssociationException {
    this.channel = channel;
    this.peer = peer;
    this.title = title;
    if (peerLimit > 0 && peerLimit < SMALLEST_PDU) {
      throw AssociationException.broken(
          AssociationException.INVALID_PARAMETER, "the peer takes no P-DATA of useful length");
    }
    for (PresentationContext context : agreed) {
      if (context.accepted()) {
        contexts.put(context.id(), context);
      }
    }
    long limit =
        peerLimit == 0 ? PduChannel.LARGEST_DATA : Math.min(peerLimit, PduChannel.LARGEST_DATA);
    this.largestValue = (int) (limit - VALUE_HEAD) & ~1;
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

  /** Returns the peer's title. */
  String title() {
    return title;
  }

  /** Waits for the peer to send anything; see {@link PduChannel#poll}. */
  boolean poll(int millis) throws IOException {
    return pending.hasRemaining() || channel.poll(millis);
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
          ended = true;
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
    write(context, command.with(Command.DATA_SET_TYPE, Command.NO_DATA_SET).encode());
    channel.flush();
  }

  private void write(PresentationContext context, byte[] command) throws IOException {
    for (int at = 0; at < command.length; at += largestValue) {
      byte[] piece = Arrays.copyOfRange(command, at, Math.min(command.length, at + largestValue));
      boolean last = at + piece.length == command.length;
      channel.writeData(context.id(), last ? COMMAND | LAST : COMMAND, piece, piece.length);
    }
  }

  /** Sends a command and its data set, read to the end of a stream. */
  void send(PresentationContext context, Command command, InputStream data) throws IOException {
    write(context, command.with(Command.DATA_SET_TYPE, Command.WITH_DATA_SET).encode());
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

  /**
   * Asks for release, waits for the answer and closes. Every request was answered before, so a peer
   * that answers otherwise changes nothing, and nothing is thrown.
   */
  void release() {
    ended = true;
    try {
      channel.write(Pdu.RELEASE_RQ, new byte[Integer.BYTES]);
      channel.flush();
      awaitRelease();
    } catch (IOException e) {
      // The peer is gone, which is what was asked for.
    } finally {
      channel.close();
    }
  }

  /** What was under way is read and dropped; both may have asked at once (PS3.8, 9.2.2, AR-8). */
  private void awaitRelease() throws IOException {
    for (int i = 0; i < MOST_BEFORE_RELEASE; i++) {
      switch (channel.read().type()) {
        case Pdu.P_DATA -> {}
        case Pdu.RELEASE_RQ -> {
          channel.write(Pdu.RELEASE_RP, new byte[Integer.BYTES]);
          channel.flush();
        }
        default -> {
          return;
        }
      }
    }
  }

  /** Aborts; nothing is thrown. */
  void abort(int reason) {
    ended = true;
    channel.abort(reason);
  }

  /** Closes; an association that was not released is aborted. */
  @Override
  public void close() {
    if (!ended) {
      abort(AssociationException.UNSPECIFIED);
    }
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

package org.isopach.dicom.network;

import java.io.BufferedOutputStream;
import java.io.Closeable;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.ByteBuffer;
import java.util.concurrent.TimeUnit;
import jdk.net.ExtendedSocketOptions;

/**
 * Reads and writes protocol data units. A length is checked against a limit before memory is taken
 * for it. A unit that is begun must be whole, and what is written must be taken, within the time of
 * {@link #timeout}. Not for several threads, but for {@link #kill()}.
 */
final class PduChannel implements Closeable {
  /** The longest P-DATA we take, as told to peers; also the longest we send. */
  static final int LARGEST_DATA = 128 * 1024;

  private static final int LARGEST_ASSOCIATE = 64 * 1024;
  private static final int LARGEST_SHORT = 1024;
  private static final int HEAD = 6;
  private static final int LINGER_MILLIS = 500;
  private static final int NOTHING_AHEAD = -2;

  private final Socket socket;
  private final Socket wire;
  private final DataInputStream in;
  private final OutputStream out;
  private final boolean quick;
  private byte[] buffer = new byte[LARGEST_SHORT];
  private int ahead = NOTHING_AHEAD;
  private volatile boolean killed;

  /**
   * Makes a channel.
   *
   * @param socket what is spoken over, perhaps secured
   * @param wire the plain connection below it, or the same
   */
  PduChannel(Socket socket, Socket wire) throws IOException {
    this.socket = socket;
    this.wire = wire;
    socket.setTcpNoDelay(true);
    this.quick = wire.supportedOptions().contains(ExtendedSocketOptions.TCP_QUICKACK);
    this.in = new DataInputStream(socket.getInputStream());
    this.out =
        new BufferedOutputStream(
            new WatchedOutput(socket.getOutputStream(), wire, this::kill), LARGEST_DATA + HEAD);
  }

  /**
   * Waits for the peer to send anything.
   *
   * @return whether {@link #read()} has something to read, be it the end
   */
  boolean poll(int millis) throws IOException {
    int usual = socket.getSoTimeout();
    socket.setSoTimeout(millis);
    try {
      ahead = ahead == NOTHING_AHEAD ? in.read() : ahead;
      return true;
    } catch (SocketTimeoutException e) {
      return false;
    } finally {
      socket.setSoTimeout(usual);
    }
  }

  /**
   * Reads the next unit.
   *
   * @throws AssociationException for an unknown type, a length beyond the limit, or a peer that
   *     closed the connection
   * @throws java.net.SocketTimeoutException when the peer is silent for too long
   */
  Pdu read() throws IOException {
    confirmAtOnce();
    int type = ahead == NOTHING_AHEAD ? in.read() : ahead;
    ahead = NOTHING_AHEAD;
    if (type < 0) {
      throw AssociationException.peer("the peer closed the connection without a release");
    }
    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(socket.getSoTimeout());
    try {
      in.readByte();
      long length = Integer.toUnsignedLong(in.readInt());
      check(type, length);
      if (buffer.length < length) {
        buffer = new byte[(int) length];
      }
      fill((int) length, end);
      return new Pdu(type, ByteBuffer.wrap(buffer, 0, (int) length));
    } catch (EOFException e) {
      throw AssociationException.peer("the connection ended within a protocol data unit");
    }
  }

  /**
   * Has what comes next confirmed at once: peers that send a unit in several pieces, as dcmtk does,
   * would otherwise wait 40 ms for that with every object. The system forgets it after a while.
   */
  private void confirmAtOnce() throws IOException {
    if (quick) {
      wire.setOption(ExtendedSocketOptions.TCP_QUICKACK, true);
    }
  }

  private void fill(int length, long end) throws IOException {
    int at = 0;
    while (at < length) {
      int n = in.read(buffer, at, length - at);
      if (n < 0) {
        throw new EOFException();
      }
      at += n;
      if (at < length && socket.getSoTimeout() > 0 && System.nanoTime() > end) {
        throw new SocketTimeoutException("a protocol data unit came too slowly");
      }
    }
  }

  private static void check(int type, long length) throws AssociationException {
    if (type < Pdu.ASSOCIATE_RQ || type > Pdu.ABORT) {
      throw AssociationException.broken(
          AssociationException.UNRECOGNISED_PDU, "unknown type of protocol data unit: " + type);
    }
    int limit =
        switch (type) {
          case Pdu.ASSOCIATE_RQ, Pdu.ASSOCIATE_AC -> LARGEST_ASSOCIATE;
          case Pdu.P_DATA -> LARGEST_DATA;
          default -> LARGEST_SHORT;
        };
    if (length > limit) {
      throw AssociationException.broken(
          AssociationException.INVALID_PARAMETER,
          "a protocol data unit of type " + type + " claims " + length + " bytes");
    }
  }

  /** Writes a unit; {@link #flush()} sends it. */
  void write(int type, byte[] body) throws IOException {
    head(type, body.length);
    out.write(body);
  }

  /** Writes a P-DATA unit of one value. {@code control} is the message control header. */
  void writeData(int context, int control, byte[] value, int length) throws IOException {
    head(Pdu.P_DATA, length + HEAD);
    out.write(ByteBuffer.allocate(Integer.BYTES).putInt(length + 2).array());
    out.write(context);
    out.write(control);
    out.write(value, 0, length);
  }

  private void head(int type, int length) throws IOException {
    out.write(ByteBuffer.allocate(HEAD).put((byte) type).put((byte) 0).putInt(length).array());
  }

  void flush() throws IOException {
    out.flush();
  }

  /** Sets how long {@link #read()} waits for bytes. */
  void timeout(int millis) throws IOException {
    socket.setSoTimeout(millis);
  }

  /** Tells the peer why, as far as the connection allows, and closes. */
  void abort(int reason) {
    try {
      write(Pdu.ABORT, new byte[] {0, 0, 2, (byte) reason});
      flush();
      closeSoftly();
    } catch (IOException e) {
      closeQuietly();
    }
  }

  /** Lets the peer read what was sent before the connection goes. */
  void closeSoftly() {
    try {
      socket.setSoTimeout(LINGER_MILLIS);
      socket.shutdownOutput();
      byte[] rest = new byte[LARGEST_SHORT];
      long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(LINGER_MILLIS);
      int more;
      do {
        more = in.read(rest);
      } while (more >= 0 && System.nanoTime() < end);
    } catch (IOException e) {
      // The peer is gone already; there is nobody to tell.
    } finally {
      closeQuietly();
    }
  }

  private void closeQuietly() {
    closeQuietly(socket);
  }

  /**
   * Cuts the connection, from whatever thread, even while another writes: closing a secured one
   * would wait for that.
   */
  void kill() {
    killed = true;
    closeQuietly(wire);
  }

  /** Returns whether the connection was cut. */
  boolean killed() {
    return killed;
  }

  private static void closeQuietly(Socket one) {
    try {
      one.close();
    } catch (IOException e) {
      // A connection that cannot be closed is closed by the system.
    }
  }

  @Override
  public void close() {
    closeQuietly();
  }
}

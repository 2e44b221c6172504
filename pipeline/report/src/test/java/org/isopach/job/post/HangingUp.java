package org.isopach.job.post;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.HexFormat;
import java.util.concurrent.atomic.AtomicInteger;

/** A server that reads what it is greeted with, says something or nothing, and hangs up. */
final class HangingUp implements Closeable {
  /** A TLS record that refuses a handshake: fatal, handshake_failure (RFC 8446, 5.1 and 6). */
  static final String REFUSAL = "15030300020228";

  private final ServerSocket socket = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
  private final AtomicInteger calls = new AtomicInteger();
  private final byte[] words;

  HangingUp() throws IOException {
    this("");
  }

  /**
   * Starts a server.
   *
   * @param hex what it says, in hexadecimal digits
   */
  HangingUp(String hex) throws IOException {
    words = HexFormat.of().parseHex(hex);
    Thread thread = new Thread(this::serve, "hanging up");
    thread.setDaemon(true);
    thread.start();
  }

  private void serve() {
    while (!socket.isClosed()) {
      try (Socket peer = socket.accept()) {
        if (peer.getInputStream().read(new byte[4096]) > 0) {
          calls.incrementAndGet();
        }
        peer.getOutputStream().write(words);
      } catch (IOException e) {
        // The caller may hang up first.
      }
    }
  }

  int port() {
    return socket.getLocalPort();
  }

  int calls() {
    return calls.get();
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}

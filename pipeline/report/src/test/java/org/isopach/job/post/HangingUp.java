package org.isopach.job.post;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicInteger;

/** A server that reads what it is greeted with, says something or nothing, and hangs up. */
final class HangingUp implements Closeable {
  /** A TLS record that refuses a handshake: fatal, handshake_failure (RFC 8446, 5.1 and 6). */
  static final String REFUSAL = "\u0015\u0003\u0003\u0000\u0002\u0002(";

  private final ServerSocket socket = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
  private final AtomicInteger calls = new AtomicInteger();
  private final String words;

  HangingUp() throws IOException {
    this("");
  }

  HangingUp(String words) throws IOException {
    this.words = words;
    Thread thread = new Thread(this::serve, "hanging up");
    thread.setDaemon(true);
    thread.start();
  }

  private void serve() {
    while (!socket.isClosed()) {
      try (Socket peer = socket.accept()) {
        calls.incrementAndGet();
        peer.getInputStream().read(new byte[4096]);
        peer.getOutputStream().write(words.getBytes(StandardCharsets.ISO_8859_1));
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

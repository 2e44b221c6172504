package org.isopach.cli;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;

/** A port that is held, so that nobody listens on it: who calls is refused. */
final class SilentPort implements Closeable {
  private final Socket socket = new Socket();

  SilentPort() throws IOException {
    socket.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0));
  }

  int number() {
    return socket.getLocalPort();
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}

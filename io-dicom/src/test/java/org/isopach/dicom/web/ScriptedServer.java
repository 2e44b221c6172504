package org.isopach.dicom.web;

import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A server that answers whatever a test wants, byte by byte, also what no sound server would. */
final class ScriptedServer implements Closeable {
  private static final Pattern LENGTH = Pattern.compile("(?i)\r\ncontent-length: *([0-9]+)\r\n");

  private final ServerSocket socket;
  private final Script script;
  private final List<Request> requests = new CopyOnWriteArrayList<>();

  /** Writes the answer to a request; the connection is closed afterwards. */
  @FunctionalInterface
  interface Script {
    void answer(Request request, OutputStream out) throws IOException;
  }

  /**
   * A request.
   *
   * @param head from the method to the empty line
   * @param body one character for each byte
   */
  record Request(String head, String body) {
    boolean asksFor(String start) {
      return head.startsWith("GET /dicom-web" + start);
    }
  }

  private ScriptedServer(ServerSocket socket, Script script) {
    this.socket = socket;
    this.script = script;
  }

  static ScriptedServer start(Script script) throws IOException {
    ServerSocket socket = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    ScriptedServer server = new ScriptedServer(socket, script);
    Thread thread = new Thread(server::serve, "scripted server");
    thread.setDaemon(true);
    thread.start();
    return server;
  }

  private void serve() {
    while (!socket.isClosed()) {
      try (Socket peer = socket.accept()) {
        Request request = read(peer.getInputStream());
        requests.add(request);
        script.answer(request, peer.getOutputStream());
        peer.getOutputStream().flush();
      } catch (IOException e) {
        // The client may well hang up in the middle of such an answer.
      }
    }
  }

  private static Request read(InputStream in) throws IOException {
    ByteArrayOutputStream head = new ByteArrayOutputStream();
    while (!head.toString(StandardCharsets.ISO_8859_1).endsWith("\r\n\r\n")) {
      int next = in.read();
      if (next < 0) {
        throw new IOException("no request");
      }
      head.write(next);
    }
    String text = head.toString(StandardCharsets.ISO_8859_1);
    Matcher length = LENGTH.matcher(text);
    int bytes = length.find() ? Integer.parseInt(length.group(1)) : 0;
    return new Request(text, new String(in.readNBytes(bytes), StandardCharsets.ISO_8859_1));
  }

  /** Returns what was asked so far. */
  List<Request> requests() {
    return requests;
  }

  WebSettings settings() {
    return settings(Duration.ofMinutes(1), 0);
  }

  WebSettings settings(Duration patience, int retries) {
    return new WebSettings(
        WebService.of("http://127.0.0.1:" + socket.getLocalPort() + "/dicom-web"),
        Optional.empty(),
        patience,
        Optional.empty(),
        retries);
  }

  /** Returns an answer that is closed by its length. */
  static byte[] answer(String status, String type, byte[] body) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.writeBytes(head(status, type, "Content-Length: " + body.length + "\r\n"));
    all.writeBytes(body);
    return all.toByteArray();
  }

  /** Returns the head of an answer that ends with the connection, if at all. */
  static byte[] head(String status, String type, String more) {
    return bytes(
        "HTTP/1.1 "
            + status
            + "\r\nContent-Type: "
            + type
            + "\r\n"
            + more
            + "Connection: close\r\n\r\n");
  }

  static byte[] json(String text) {
    return answer("200 OK", "application/dicom+json", bytes(text));
  }

  static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.ISO_8859_1);
  }

  @Override
  public void close() throws IOException {
    socket.close();
  }
}

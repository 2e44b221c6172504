package org.isopach.dicom.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.network.SendResult;
import org.isopach.dicom.network.TlsFiles;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** HTTPS, with the server of the JDK. */
class SecuredWebTest {
  private static final char[] WORD = "sandpiper".toCharArray();

  @TempDir Path folder;
  private final List<String> logins = new CopyOnWriteArrayList<>();
  private HttpsServer server;

  @BeforeEach
  void start() throws IOException {
    Path store = folder.resolve("key.p12");
    ToolRun run =
        ToolRun.of(
            Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
            "-genkeypair",
            "-alias",
            "tern",
            "-keyalg",
            "EC",
            "-dname",
            "CN=localhost",
            "-ext",
            "san=dns:localhost",
            "-storetype",
            "PKCS12",
            "-keystore",
            store.toString(),
            "-storepass",
            "sandpiper");
    assertEquals(0, run.exit(), run.output());
    // On every address: a name may stand for ::1 or for 127.0.0.1.
    server = HttpsServer.create(new InetSocketAddress(0), 0);
    server.setHttpsConfigurator(
        new HttpsConfigurator(TlsFiles.context(Optional.of(store), Optional.empty(), WORD)));
    server.createContext(
        "/dicom-web/studies",
        exchange -> {
          logins.add(exchange.getRequestHeaders().getFirst("Authorization"));
          exchange.sendResponseHeaders(204, -1);
          exchange.close();
        });
    server.start();
  }

  @AfterEach
  void stop() {
    server.stop(0);
  }

  private WebSettings settings(String host, boolean trusted) throws IOException {
    Path login = Files.writeString(folder.resolve("login"), "tern:word");
    Path store = folder.resolve("key.p12");
    return WebSettings.checked(
        new WebSettings(
            WebService.of("https://" + host + ":" + server.getAddress().getPort() + "/dicom-web"),
            Optional.of(WebCredentials.password(login)),
            Duration.ofMinutes(1),
            trusted
                ? Optional.of(TlsFiles.context(Optional.empty(), Optional.of(store), WORD))
                : Optional.empty(),
            3),
        false);
  }

  @Test
  void talksToWhomItTrustsOnly() throws IOException {
    WebSender.probe(settings("localhost", true));
    for (WebSettings other : List.of(settings("localhost", false), settings("127.0.0.1", true))) {
      IOException refused = assertThrows(IOException.class, () -> WebSender.probe(other));
      assertTrue(refused.getMessage().contains("no secure connection"), refused.getMessage());
    }
    assertEquals(List.of("Basic dGVybjp3b3Jk"), logins);
  }

  @Test
  void callsAgainWhoHangsUpWhileTheConnectionIsSecured() throws Exception {
    AtomicInteger calls = new AtomicInteger();
    try (ServerSocket socket = new ServerSocket(0)) {
      Thread hangingUp = new Thread(() -> hangUp(socket, calls), "hanging up");
      hangingUp.setDaemon(true);
      hangingUp.start();
      WebSettings settings =
          new WebSettings(
              WebService.of("https://localhost:" + socket.getLocalPort() + "/dicom-web"),
              Optional.empty(),
              Duration.ofSeconds(20),
              Optional.empty(),
              1);
      List<Path> files = List.of(WebObjects.write(folder, 1), WebObjects.write(folder, 2));
      SendResult result = WebSender.send(settings, files, Optional.empty(), (kind, line) -> {});

      assertEquals(2, result.failures().size());
      assertTrue(calls.get() >= 2, result.toString());
    }
  }

  private static void hangUp(ServerSocket socket, AtomicInteger calls) {
    while (!socket.isClosed()) {
      try (Socket peer = socket.accept()) {
        if (peer.getInputStream().read(new byte[4096]) > 0) {
          calls.incrementAndGet();
        }
      } catch (IOException e) {
        // The test is over, or the caller hung up first.
      }
    }
  }
}

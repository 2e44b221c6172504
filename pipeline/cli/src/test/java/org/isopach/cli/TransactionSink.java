package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.network.TlsFiles;

/** Takes every transaction, keeps its text, and says that all of it is new. */
final class TransactionSink implements AutoCloseable {
  static final String WORD = "sandpiper";

  private static final ObjectMapper JSON = new ObjectMapper();

  private final HttpServer server;
  private final String base;
  private final List<byte[]> bodies = Collections.synchronizedList(new ArrayList<>());
  private final List<String> authorizations = Collections.synchronizedList(new ArrayList<>());

  private TransactionSink(HttpServer server, String scheme) {
    this.server = server;
    this.base = scheme + "://" + NetworkFiles.HOST + ":" + server.getAddress().getPort() + "/r4";
    server.createContext("/r4", this::take);
    server.start();
  }

  static TransactionSink plain() throws IOException {
    return new TransactionSink(HttpServer.create(anyPort(), 0), "http");
  }

  static TransactionSink secured(Path key) throws IOException {
    HttpsServer server = HttpsServer.create(anyPort(), 0);
    server.setHttpsConfigurator(
        new HttpsConfigurator(
            TlsFiles.context(Optional.of(key), Optional.empty(), WORD.toCharArray())));
    return new TransactionSink(server, "https");
  }

  private static InetSocketAddress anyPort() {
    return new InetSocketAddress(InetAddress.getLoopbackAddress(), 0);
  }

  String base() {
    return base;
  }

  List<byte[]> bodies() {
    return List.copyOf(bodies);
  }

  List<String> authorizations() {
    return List.copyOf(authorizations);
  }

  @Override
  public void close() {
    server.stop(0);
  }

  private void take(HttpExchange exchange) throws IOException {
    try (exchange) {
      byte[] body = exchange.getRequestBody().readAllBytes();
      bodies.add(body);
      authorizations.add(String.valueOf(exchange.getRequestHeaders().getFirst("Authorization")));
      ObjectNode response = JSON.createObjectNode();
      response.put("resourceType", "Bundle").put("type", "transaction-response");
      ArrayNode entries = response.putArray("entry");
      for (int i = 0; i < JSON.readTree(body).get("entry").size(); i++) {
        entries.addObject().putObject("response").put("status", "201 Created");
      }
      byte[] bytes = response.toString().getBytes(StandardCharsets.UTF_8);
      exchange.sendResponseHeaders(200, bytes.length);
      exchange.getResponseBody().write(bytes);
    }
  }

  /** Makes a key whose certificate names this machine, with the JDK's own tool. */
  static Path makeKey(Path folder) throws Exception {
    Path key = folder.resolve("key.p12");
    keytool(
        "-genkeypair -alias tern -keyalg RSA -keysize 2048 -dname CN=localhost"
            + " -ext san=dns:localhost,ip:"
            + NetworkFiles.HOST
            + " -storetype PKCS12 -keystore "
            + key);
    return key;
  }

  /** Makes a store that trusts the certificate of a key. */
  static Path makeTrust(Path folder, Path key) throws Exception {
    Path certificate = folder.resolve("tern.pem");
    Path trust = folder.resolve("trust.p12");
    keytool("-exportcert -alias tern -rfc -file " + certificate + " -keystore " + key);
    keytool(
        "-importcert -noprompt -alias tern -storetype PKCS12 -file "
            + certificate
            + " -keystore "
            + trust);
    return trust;
  }

  private static void keytool(String arguments) throws Exception {
    List<String> line = new ArrayList<>();
    line.add(Path.of(System.getProperty("java.home"), "bin", "keytool").toString());
    line.addAll(List.of(arguments.split(" ", -1)));
    line.addAll(List.of("-storepass", WORD));
    Process process = new ProcessBuilder(line).redirectErrorStream(true).start();
    String words = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), words);
  }
}

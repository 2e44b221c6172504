package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.net.ssl.SSLContext;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.peer.PeerProcess;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** TLS between our two sides, and with dcmtk both ways. */
class SecuredTest {
  private static final String WORD = "sandpiper";

  @TempDir private static Path keys;
  private static Path store;
  private static Path certificate;

  @TempDir Path folder;

  @BeforeAll
  static void makeKey() {
    store = keys.resolve("key.p12");
    certificate = keys.resolve("certificate.pem");
    keytool(
        "-genkeypair",
        "-alias",
        "tern",
        "-keyalg",
        "RSA",
        "-keysize",
        "2048",
        "-dname",
        "CN=localhost",
        "-ext",
        "san=dns:localhost,ip:127.0.0.1",
        "-storetype",
        "PKCS12");
    keytool("-exportcert", "-alias", "tern", "-rfc", "-file", certificate.toString());
    Path trust = keys.resolve("trust.p12");
    run(
        tool("keytool"),
        "-importcert",
        "-noprompt",
        "-alias",
        "tern",
        "-file",
        certificate.toString(),
        "-storetype",
        "PKCS12",
        "-keystore",
        trust.toString(),
        "-storepass",
        WORD);
  }

  @Test
  void takesOnlyPeersItTrusts() throws IOException {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 3);
    HeardEvents events = new HeardEvents();
    try (StorageListener listener = listener(true, events)) {
      SendResult sent =
          StorageSender.send(
              caller(listener.port(), Optional.of(context(true))), files, Optional.empty(), events);

      assertEquals(new SendResult(3, 0, 0, List.of()), sent, events.toString());
      for (Optional<SSLContext> other :
          List.of(Optional.<SSLContext>empty(), Optional.of(context(false)))) {
        assertThrows(IOException.class, () -> StorageSender.echo(caller(listener.port(), other)));
      }
      StorageSender.echo(caller(listener.port(), Optional.of(context(true))));
    }
  }

  @Test
  void takesWhatAnotherSendsSecurely() throws IOException {
    Peers.need("storescu");
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 3);
    try (StorageListener listener = listener(false, new HeardEvents())) {
      run(
          "storescu",
          "+tla",
          "+cf",
          certificate.toString(),
          "-aec",
          Peers.AET,
          "+sd",
          Peers.HOST,
          "" + listener.port(),
          folder.resolve("in").toString());
    }

    assertEquals(files.size(), Peers.kept(folder.resolve("out")).size());
  }

  @Test
  void sendsSecurelyToAnother() throws Exception {
    Peers.need("storescp", "openssl");
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 3);
    Path key = folder.resolve("key.pem");
    run(
        "openssl",
        "pkcs12",
        "-in",
        store.toString(),
        "-nocerts",
        "-nodes",
        "-passin",
        "pass:" + WORD,
        "-out",
        key.toString());
    Path out = Files.createDirectories(folder.resolve("scp"));
    List<String> call =
        List.of(
            "storescp",
            "+tls",
            key.toString(),
            certificate.toString(),
            "+cf",
            certificate.toString(),
            "-aet",
            Peers.AET,
            "-od",
            out.toString());
    try (PeerProcess scp = PeerProcess.start(folder.resolve("log"), call)) {
      CallerSettings caller = caller(scp.port(0), Optional.of(context(true)));
      SendResult sent = StorageSender.send(caller, files, Optional.empty(), new HeardEvents());

      assertEquals(new SendResult(3, 0, 0, List.of()), sent, scp.state());
    }
  }

  private StorageListener listener(boolean prove, NetworkEvents events) throws IOException {
    return StorageListener.start(
        new ListenerSettings(
            0,
            Peers.AET,
            folder.resolve("out"),
            Set.of(),
            List.of(),
            4,
            ListenerSettings.OBJECT_BYTES,
            Peers.PATIENCE,
            Optional.of(context(true)),
            prove),
        events);
  }

  private static CallerSettings caller(int port, Optional<SSLContext> tls) {
    CallerSettings plain = Peers.to(port);
    return new CallerSettings(plain.callingAet(), plain.to(), plain.patience(), tls, 0);
  }

  private static SSLContext context(boolean withKey) throws IOException {
    return TlsFiles.context(
        withKey ? Optional.of(store) : Optional.empty(),
        Optional.of(keys.resolve("trust.p12")),
        WORD.toCharArray());
  }

  private static void keytool(String... arguments) {
    String[] command = new String[arguments.length + 5];
    command[0] = tool("keytool");
    System.arraycopy(arguments, 0, command, 1, arguments.length);
    System.arraycopy(
        new String[] {"-keystore", store.toString(), "-storepass", WORD},
        0,
        command,
        arguments.length + 1,
        4);
    run(command);
  }

  private static String tool(String name) {
    return Path.of(System.getProperty("java.home"), "bin", name).toString();
  }

  private static void run(String... command) {
    ToolRun run = ToolRun.of(command);
    assertEquals(0, run.exit(), run.output());
  }
}

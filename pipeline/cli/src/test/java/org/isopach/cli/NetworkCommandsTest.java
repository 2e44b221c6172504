package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.StorageListener;
import org.isopach.dicom.network.TlsFiles;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What {@code receive}, {@code send} and {@code fetch} say, and with which exit code. */
class NetworkCommandsTest {
  private static final String AET = "SANDPIPER";

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "send --to A@localhost:0 | a port is 1 to 65535",
        "send --to A@localhost:70000 | a port is 1 to 65535",
        "send --to A@localhost | not of the form AET@HOST:PORT",
        "send --to A_MUCH_TOO_LONG_TITLE@localhost:104 | is not a title of 1 to 16",
        "send --to A@localhost:104 --timeout 0 | --timeout at least 1",
        "send --to A@localhost:104 --port 105 | --port needs --commit",
        "send --to A@localhost:104 --commit --port 0 | --port must be from 1 to 65535",
        "send --to A@localhost:104 nowhere | input 'nowhere' does not exist",
        "fetch --from A@localhost | not of the form",
        "fetch --from A@localhost:104 | say which studies",
        "fetch --from A@localhost:104 --patient * | without *",
        "fetch --from A@localhost:104 --study ../x | is not a UID",
        "fetch --from A@localhost:104 --date today | dates are such as",
        "fetch --from A@localhost:104 --patient 1 --port 70000 | --port from 1 to 65535",
        "fetch --from A@localhost:104 --patient 1 --out pom.xml | is a file; give a folder",
        "fetch --from A@localhost:104 --patient 1 --allow-from 192.0.2.7 | needs --port",
        "fetch --from A@localhost:104 --patient 1 --port 9 --allow-from x | is not a numeric"
            + " address",
        "receive --aet A --out out --port 70000 | --port must be from 0 to 65535",
        "receive --aet A --out pom.xml --port 0 | is a file; give a folder",
        "receive --aet A --out out --port 0 --commit-to B | not of the form",
        "receive --aet A --out out --port 0 --allow-from there | is not a numeric address",
        "receive --aet A --out out --port 0 --tls-trust x | TLS needs --tls-key here"
      })
  void refusesWrongCalls(String call, String reason) {
    Call result = Call.isopach((Object[]) call.strip().split(" ", -1));

    assertEquals(2, result.code(), result.err());
    assertTrue(result.err().contains(reason.strip()), result.err());
    assertTrue(Files.notExists(Path.of("out")), "nothing was done");
  }

  @Test
  void saysThatNobodyListens() throws IOException {
    Path in = NetworkFiles.objects(folder.resolve("in"), 2);
    try (SilentPort port = new SilentPort()) {
      saysThatNobodyListens(in, AET + "@" + NetworkFiles.HOST + ":" + port.number());
    }
  }

  private void saysThatNobodyListens(Path in, String to) {
    Call send = Call.isopach("send", in, "--to", to, "--retries", 0);
    Call echo = Call.isopach("send", "--to", to);
    Call fetch = Call.isopach("fetch", "--from", to, "--patient", "1", "--out", folder);

    assertEquals(4, send.code(), send.err());
    assertTrue(send.err().contains("nobody listens there"), send.err());
    assertTrue(send.err().contains("1.dcm"), "each is named: " + send.err());
    assertTrue(send.out().contains("0 objects sent, 0 sent before, 2 not ack"), send.out());
    assertEquals(4, echo.code());
    assertTrue(echo.err().contains(to + " does not answer: nobody listens"), echo.err());
    assertEquals(4, fetch.code());
    assertTrue(fetch.err().contains(to + ": nobody listens there"), fetch.err());
  }

  @Test
  void saysThatTheTitleIsNotKnownAndDoesNotTryAgain() throws IOException {
    Path in = NetworkFiles.objects(folder.resolve("in"), 1);
    try (StorageListener listener = listener()) {
      String to = "OTHER@" + NetworkFiles.HOST + ":" + listener.port();

      Call send = Call.isopach("send", in, "--to", to, "--retries", 30);
      Call fetch = Call.isopach("fetch", "--from", to, "--study", "1.2");

      assertEquals(4, send.code(), send.err());
      assertTrue(send.err().contains("the title called is not known there"), send.err());
      assertEquals(4, fetch.code());
      assertTrue(fetch.err().contains("the title called is not known there"), fetch.err());
    }
  }

  @Test
  void saysThatTheServiceIsNotOffered() throws IOException {
    try (StorageListener listener = listener()) {
      Call fetch =
          Call.isopach(
              "fetch",
              "--from",
              AET + "@" + NetworkFiles.HOST + ":" + listener.port(),
              "--study",
              "1.2");

      assertEquals(4, fetch.code());
      assertTrue(fetch.err().contains("does not offer this service"), fetch.err());
    }
  }

  @Test
  void saysThatTheConnectionCannotBeSecured() throws Exception {
    NetworkFiles.keys(folder);
    Path in = NetworkFiles.objects(folder.resolve("in"), 1);
    Object[] secure = {
      "--tls-trust", folder.resolve("trust.p12"), "--tls-password-file", folder.resolve("password")
    };
    try (StorageListener plain = listener()) {
      Call send = send(in, plain.port(), secure);
      assertEquals(4, send.code(), send.err());
      assertTrue(send.err().contains("cannot be secured"), send.err());
    }
    Optional<Path> key = Optional.of(folder.resolve("key.p12"));
    Optional<Path> trust = Optional.of(folder.resolve("trust.p12"));
    char[] password = Files.readString(folder.resolve("password")).strip().toCharArray();
    try (StorageListener secured =
        StorageListener.start(
            settings().secured(Optional.of(TlsFiles.context(key, trust, password)), false),
            (kind, line) -> {})) {
      Call inPlain = send(in, secured.port());
      Call send = send(in, secured.port(), secure);
      assertEquals(4, inPlain.code(), inPlain.err());
      assertEquals(0, send.code(), send.err());
    }
    Files.writeString(folder.resolve("password"), "wrong");
    Call wrongWord = send(in, 104, secure);
    assertEquals(1, wrongWord.code(), wrongWord.err());
    assertTrue(wrongWord.err().contains("password was incorrect"), wrongWord.err());
  }

  @Test
  void namesWhatWasNotTaken() throws IOException {
    Path in = NetworkFiles.objects(folder.resolve("in"), 3);
    byte[] whole = Files.readAllBytes(in.resolve("1.dcm"));
    Files.write(in.resolve("1.dcm"), java.util.Arrays.copyOf(whole, whole.length - 9));
    Files.writeString(in.resolve("notes.txt"), "no object");
    try (StorageListener listener = listener()) {
      NetworkFiles.object(in.resolve("other.dcm"), "2.25.8100", (byte) 99);
      Call some = send(in, listener.port(), "--json");

      assertEquals(3, some.code(), some.err());
      assertTrue(some.err().contains("1.dcm: "), some.err());
      assertTrue(some.err().contains("other.dcm: refused with status 0111"), some.err());
      assertTrue(some.out().contains("\"sent\" : 2"), some.out());
      assertTrue(some.out().contains("\"not_dicom\" : 1"), some.out());

      Call none = send(in.resolve("other.dcm"), listener.port());
      assertEquals(4, none.code(), none.err());
    }
  }

  @Test
  void asksForCommitment() throws IOException {
    Path in = NetworkFiles.objects(folder.resolve("in"), 3);
    Path journal = folder.resolve("journal");
    try (StorageListener listener = listener()) {
      Call first = send(in, listener.port(), "--commit", "--journal", journal);
      assertEquals(0, first.code(), first.err());
      assertTrue(first.out().contains("3 committed, 0 not committed"), first.out());

      Path kept = folder.resolve("out").resolve(NetworkFiles.STUDY).resolve("2.25.7104");
      Files.delete(kept.resolve("2.25.8101.dcm"));
      Call again = send(in, listener.port(), "--commit", "--journal", journal, "--json");
      assertEquals(3, again.code(), again.err());
      assertTrue(again.out().contains("\"sent_before\" : 3"), again.out());
      assertTrue(again.out().contains("\"committed\" : 2"), again.out());
      assertTrue(
          again.err().contains("1.dcm: not committed: no such object there (0112)"), again.err());
    }
  }

  @Test
  void saysWhyItCannotListen() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "x");
    Call below = Call.isopach("receive", "--port", 0, "--aet", AET, "--out", file.resolve("out"));
    assertEquals(1, below.code(), below.err());
    assertTrue(below.err().contains("cannot write or read"), below.err());

    try (ServerSocket taken = new ServerSocket(0)) {
      Call call =
          Call.isopach(
              "receive",
              "--port",
              taken.getLocalPort(),
              "--aet",
              AET,
              "--out",
              folder.resolve("o"));
      assertEquals(1, call.code(), call.err());
      assertTrue(call.err().contains("cannot listen on port " + taken.getLocalPort()), call.err());
    }
    try (StorageListener listener = listener()) {
      Call call =
          Call.isopach("receive", "--port", 0, "--aet", AET, "--out", folder.resolve("out"));
      assertEquals(1, call.code(), call.err() + listener.port());
      assertTrue(call.err().contains("another listener stores into"), call.err());
    }
  }

  /** As a user runs it, in a process of its own, stopped by SIGTERM. */
  @Test
  void receivesUntilItIsStopped() throws Exception {
    Path in = NetworkFiles.objects(folder.resolve("in"), 2);
    Path out = folder.resolve("out");
    Path log = folder.resolve("log");
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                "org.isopach.cli.Isopach",
                "receive",
                "--port=0",
                "--aet=" + AET,
                "--out=" + out,
                "--allow-from=127.0.0.0/8,::1",
                "-v")
            .redirectError(log.toFile())
            .start();
    try (var lines = process.inputReader(StandardCharsets.UTF_8)) {
      String first = lines.readLine();
      assertTrue(first != null && first.startsWith(AET + " listens on port "), first);
      int port = Integer.parseInt(first.substring(first.lastIndexOf(' ') + 1));

      Call send = send(in, port, "--commit");
      assertEquals(0, send.code(), send.err());
      process.destroy();
      assertEquals(143, process.waitFor());
    } finally {
      process.destroyForcibly();
    }
    String said = Files.readString(log);
    assertTrue(said.contains("stored 2.25.8101"), said);
    assertTrue(said.contains("2 objects committed, 0 not"), said);
    assertTrue(said.contains("stopped; 2 objects are kept"), said);
    assertTrue(!said.contains(NetworkFiles.PATIENT), "no patient in the log");
  }

  private ListenerSettings settings() {
    return ListenerSettings.usual(0, AET, folder.resolve("out"));
  }

  private StorageListener listener() throws IOException {
    return StorageListener.start(settings(), (kind, line) -> {});
  }

  private static Call send(Path in, int port, Object... more) {
    Object[] words = new Object[more.length + 6];
    System.arraycopy(
        new Object[] {
          "send", in, "--to", AET + "@" + NetworkFiles.HOST + ":" + port, "--retries", 0
        },
        0,
        words,
        0,
        6);
    System.arraycopy(more, 0, words, 6, more.length);
    return Call.isopach(words);
  }
}

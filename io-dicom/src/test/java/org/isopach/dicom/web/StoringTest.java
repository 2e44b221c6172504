package org.isopach.dicom.web;

import static org.isopach.dicom.web.WebObjects.text;
import static org.isopach.dicom.web.WebObjects.uid;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.isopach.dicom.network.SendResult;
import org.isopach.dicom.web.ScriptedServer.Request;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What goes out to a server that stores, and what its answers are taken for (PS3.18, 10.5). */
class StoringTest {
  @TempDir Path folder;
  private final List<String> lines = new CopyOnWriteArrayList<>();

  private List<Path> files(int count) throws IOException {
    List<Path> files = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      files.add(WebObjects.write(folder.resolve("in"), i));
    }
    return files;
  }

  private SendResult send(WebSettings settings, List<Path> files) throws IOException {
    Optional<Path> journal = Optional.of(folder.resolve("journal"));
    return WebSender.send(settings, files, journal, (kind, line) -> lines.add(line));
  }

  private static String item(int number, String more) {
    return "{" + text("0008", "1155", uid(number)) + more + "}";
  }

  private static String reason(String element, int reason) {
    return ",\"0008" + element + "\":{\"vr\":\"US\",\"Value\":[" + reason + "]}";
  }

  /** Returns a store response: who is kept, who is not. */
  private static byte[] response(String status, List<String> kept, List<String> failed) {
    String body =
        "{\"00081199\":{\"vr\":\"SQ\",\"Value\":["
            + String.join(",", kept)
            + "]},\"00081198\":{\"vr\":\"SQ\",\"Value\":["
            + String.join(",", failed)
            + "]}}";
    return ScriptedServer.answer(status, "application/dicom+json", ScriptedServer.bytes(body));
  }

  private static List<String> all(int from, int to) {
    List<String> items = new ArrayList<>();
    for (int i = from; i < to; i++) {
      items.add(item(i, ""));
    }
    return items;
  }

  /** Returns the objects of a request. */
  private static List<byte[]> objects(Request request) throws IOException {
    String boundary = request.head().replaceAll("(?s).*boundary=([^\r]*)\r.*", "$1");
    MultipartReader reader =
        new MultipartReader(
            new ByteArrayInputStream(ScriptedServer.bytes(request.body())), boundary);
    List<byte[]> objects = new ArrayList<>();
    while (reader.next()) {
      assertEquals("application/dicom", reader.header("Content-Type"));
      objects.add(reader.body().readAllBytes());
    }
    return objects;
  }

  @Test
  void sendsFilesAsTheyAreAndRemembersWhatWasTaken() throws Exception {
    List<Path> files = files(3);
    Files.writeString(folder.resolve("in").resolve("notes.txt"), "no object");
    try (ScriptedServer server =
        ScriptedServer.start((request, to) -> to.write(response("200 OK", all(0, 3), List.of())))) {
      List<Path> both = new ArrayList<>(files);
      both.add(folder.resolve("in").resolve("notes.txt"));

      assertEquals(new SendResult(3, 0, 1, List.of()), send(server.settings(), both));
      assertEquals(new SendResult(0, 3, 0, List.of()), send(server.settings(), files));

      assertEquals(1, server.requests().size());
      Request request = server.requests().get(0);
      assertTrue(request.head().startsWith("POST /dicom-web/studies HTTP/1.1\r\n"));
      List<byte[]> sent = objects(request);
      for (int i = 0; i < files.size(); i++) {
        assertArrayEquals(Files.readAllBytes(files.get(i)), sent.get(i));
      }
    }
  }

  @Test
  void saysOfEachObjectWhatBecameOfIt() throws Exception {
    List<Path> files = files(4);
    byte[] answer =
        response(
            "202 Accepted",
            List.of(item(0, ""), item(1, reason("1196", 0xB000))),
            List.of(item(2, reason("1197", 0x0122))));
    try (ScriptedServer server = ScriptedServer.start((request, to) -> to.write(answer))) {
      SendResult result = send(server.settings(), files);

      assertEquals(2, result.sent());
      assertEquals(
          List.of(
              new SendResult.Failure(files.get(2).toString(), "refused with reason 0122"),
              new SendResult.Failure(files.get(3).toString(), "the answer does not name it")),
          result.failures());
      assertTrue(lines.stream().anyMatch(line -> line.endsWith("1.dcm with warning B000")));
      assertEquals(2, Files.readAllLines(folder.resolve("journal")).size());
    }
  }

  @Test
  void triesAgainWhatFailedForTheMoment() throws Exception {
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) ->
                to.write(
                    Files.exists(folder.resolve("tried"))
                        ? response("200 OK", all(0, 2), List.of())
                        : busy()))) {
      WebSettings patient = server.settings(Duration.ofMinutes(1), 1);

      assertEquals(new SendResult(2, 0, 0, List.of()), send(patient, files(2)));
      assertEquals(2, server.requests().size());
    }
  }

  private byte[] busy() throws IOException {
    Files.createFile(folder.resolve("tried"));
    return ScriptedServer.head("503 Busy", "text/plain", "");
  }

  @Test
  void sendsInHalvesWhatIsRefusedAsAWhole() throws Exception {
    List<Path> files = files(4);
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) ->
                to.write(
                    request.body().contains(uid(2))
                        ? ScriptedServer.head("400 Bad", "text/plain", "")
                        : response("200 OK", all(0, 4), List.of())))) {
      SendResult result = send(server.settings(), files);

      assertEquals(3, result.sent());
      assertEquals(
          List.of(new SendResult.Failure(files.get(2).toString(), "the server refuses (400)")),
          result.failures());
      assertEquals(5, server.requests().size());
    }
  }

  @Test
  void sendsInHalvesWhatMakesTheServerFail() throws Exception {
    List<Path> files = files(4);
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) ->
                to.write(
                    request.body().contains(uid(2))
                        ? ScriptedServer.head("500 Oh", "text/plain", "")
                        : response("200 OK", all(0, 4), List.of())))) {
      SendResult result = send(server.settings(), files);

      assertEquals(3, result.sent(), lines.toString());
      assertEquals(1, result.failures().size());
      assertEquals(files.get(2).toString(), result.failures().get(0).file());
    }
  }

  @Test
  void leavesAServerAloneThatFailsOnEverything() throws Exception {
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> to.write(ScriptedServer.head("500 Oh", "text/plain", "")))) {
      SendResult result = send(server.settings(), files(100));

      assertEquals(100, result.failures().size());
      assertTrue(server.requests().size() < 30, server.requests().size() + " requests");
    }
  }

  @Test
  void namesTheObjectAtWhichTheServerHangsUpAndSendsTheOthers() throws Exception {
    List<Path> files = files(4);
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> {
              if (!request.body().contains(uid(2))) {
                to.write(response("200 OK", all(0, 4), List.of()));
              }
            })) {
      SendResult result = send(server.settings(), files);

      assertEquals(3, result.sent(), lines.toString());
      assertEquals(1, result.failures().size());
      assertEquals(files.get(2).toString(), result.failures().get(0).file());
      assertTrue(result.failures().get(0).reason().startsWith("no answer"), lines.toString());
    }
  }

  @Test
  void stopsAtAServerThatHangsUpOnWhateverIsAsked() throws Exception {
    try (ScriptedServer server = ScriptedServer.start((request, to) -> {})) {
      SendResult result = send(server.settings(), files(100));

      assertEquals(100, result.failures().size());
      List<Request> requests = server.requests();
      assertTrue(requests.size() < 5, requests.size() + " requests");
      assertTrue(requests.get(1).asksFor("/studies?limit=1"), requests.get(1).head());
    }
  }

  /** It answers queries, so that each loss could be the object's fault. */
  @Test
  void leavesAServerAloneThatLosesWhateverIsSent() throws Exception {
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> {
              if (request.asksFor("/studies?limit=1")) {
                to.write(ScriptedServer.head("200 OK", "application/dicom+json", ""));
              }
            })) {
      SendResult result = send(server.settings(), files(100));

      assertEquals(100, result.failures().size());
      long posts = server.requests().stream().filter(one -> one.head().startsWith("POST ")).count();
      assertEquals(12, posts, "one try each without retries");
    }
  }

  @Test
  void stopsAtAServerThatIsGone() throws Exception {
    WebSettings settings;
    try (ScriptedServer server = ScriptedServer.start((request, to) -> {})) {
      settings = server.settings();
    }
    List<Path> files = files(3);
    SendResult result = send(settings, files);

    assertEquals(3, result.failures().size());
    assertEquals(1, result.failures().stream().map(SendResult.Failure::reason).distinct().count());
    assertEquals(3, lines.size(), "each is named once, and nothing is tried again: " + lines);
  }

  @Test
  void namesAFileThatWentAwayAndSendsTheOthers() throws Exception {
    List<Path> files = files(2);
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) ->
                to.write(
                    Files.deleteIfExists(files.get(1))
                        ? ScriptedServer.head("400 Bad", "text/plain", "")
                        : response("200 OK", all(0, 1), List.of())))) {
      SendResult result = send(server.settings(), files);

      assertEquals(1, result.sent());
      assertEquals(1, result.failures().size());
      assertEquals(files.get(1).toString(), result.failures().get(0).file());
      assertTrue(result.failures().get(0).reason().startsWith("cannot be read"), lines.toString());
    }
  }

  @Test
  void boundsARequestAndTellsObjectsOfOneNameApart() throws Exception {
    List<Path> files = new ArrayList<>(files(130));
    files.add(Files.copy(files.get(129), folder.resolve("copy.dcm")));
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> to.write(response("200 OK", all(0, 130), List.of())))) {
      assertEquals(new SendResult(131, 0, 0, List.of()), send(server.settings(), files));

      List<Integer> sizes = new ArrayList<>();
      for (Request request : server.requests()) {
        sizes.add(objects(request).size());
      }
      assertEquals(List.of(100, 30, 1), sizes);
    }
  }

  @Test
  void takesAnAnswerThatNamesNobodyForNoAcknowledgement() throws Exception {
    List<byte[]> answers =
        List.of(
            ScriptedServer.head("200 OK", "text/html", ""),
            ScriptedServer.answer("200 OK", "application/dicom+json", ScriptedServer.bytes("[")),
            ScriptedServer.head("401 Who", "text/plain", ""),
            ScriptedServer.head("404 Not", "text/plain", ""),
            ScriptedServer.head("302 Else", "text/plain", "Location: http://192.0.2.1/\r\n"),
            new byte[0]);
    List<Path> files = files(2);
    for (byte[] answer : answers) {
      try (ScriptedServer server = ScriptedServer.start((request, to) -> to.write(answer))) {
        SendResult result = send(server.settings(), files);
        assertEquals(0, result.sent(), lines.toString());
        assertEquals(2, result.failures().size(), lines.toString());
      }
    }
    assertFalse(Files.readString(folder.resolve("journal")).contains("2.25"));
  }
}

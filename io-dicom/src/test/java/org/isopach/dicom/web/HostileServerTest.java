package org.isopach.dicom.web;

import static org.isopach.dicom.web.WebObjects.BOUNDARY;
import static org.isopach.dicom.web.WebObjects.STUDY;
import static org.isopach.dicom.web.WebObjects.TYPE;
import static org.isopach.dicom.web.WebObjects.end;
import static org.isopach.dicom.web.WebObjects.joined;
import static org.isopach.dicom.web.WebObjects.listed;
import static org.isopach.dicom.web.WebObjects.object;
import static org.isopach.dicom.web.WebObjects.part;
import static org.isopach.dicom.web.WebObjects.uid;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.network.FoundStudy;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Objects from a server that lies, breaks off, or never ends. */
class HostileServerTest {
  private static final int MOST_BYTES = 1 << 20;

  @TempDir Path folder;
  private final List<String> refused = new CopyOnWriteArrayList<>();

  private Path out() {
    return folder.resolve("out");
  }

  private WebArchive.Fetched fetch(ScriptedServer server) throws IOException {
    return fetch(server.settings());
  }

  private WebArchive.Fetched fetch(WebSettings settings) throws IOException {
    WebArchive archive = new WebArchive(settings, (kind, line) -> refused.add(line), MOST_BYTES);
    return archive.get(new FoundStudy(STUDY, "", "", ""), out());
  }

  /** Lists objects 0 and 1, and answers every retrieval with the same. */
  private static ScriptedServer serving(byte[] retrieval) throws IOException {
    return ScriptedServer.start(
        (request, to) ->
            to.write(request.head().contains("/instances?") ? listed(uid(0), uid(1)) : retrieval));
  }

  private void assertNothingHalfKept(int... numbers) throws IOException {
    List<String> names = new ArrayList<>();
    for (int number : numbers) {
      names.add(uid(number) + ".dcm");
    }
    assertEquals(names, WebObjects.kept(out()), refused.toString());
    assertEquals(List.of(), WebObjects.others(out()));
  }

  private void assertRefused(String words) {
    assertTrue(refused.stream().anyMatch(line -> line.contains(words)), refused.toString());
  }

  private static byte[] chunkless(byte[] body) {
    return joined(ScriptedServer.head("200 OK", TYPE, ""), body);
  }

  @Test
  void keepsWhatASoundServerSends() throws IOException {
    byte[] body = joined(part(object(folder, 0), ""), part(object(folder, 1), ""), end());
    try (ScriptedServer server = serving(ScriptedServer.answer("200 OK", TYPE, body))) {
      assertEquals(new WebArchive.Fetched(2, List.of()), fetch(server));
      assertEquals(new WebArchive.Fetched(2, List.of()), fetch(server));
      assertTrue(server.requests().get(1).head().contains("transfer-syntax=*"));
    }
    assertNothingHalfKept(0, 1);
  }

  @Test
  void fetchesOneByOneWhatTheWholeStudyLacked() throws IOException {
    byte[] first = joined(part(object(folder, 0), ""), end());
    byte[] second = joined(part(object(folder, 1), ""), end());
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) ->
                to.write(
                    request.head().contains("/instances?")
                        ? listed(uid(0), uid(1))
                        : chunkless(request.head().contains(uid(1)) ? second : first)))) {
      assertEquals(new WebArchive.Fetched(2, List.of()), fetch(server));
    }
    assertNothingHalfKept(0, 1);
  }

  @Test
  void keepsNothingOfAnObjectThatBreaksOff() throws IOException {
    byte[] second = part(object(folder, 1), "");
    byte[] cut = Arrays.copyOf(second, second.length - 20);
    try (ScriptedServer server = serving(chunkless(joined(part(object(folder, 0), ""), cut)))) {
      assertEquals(new WebArchive.Fetched(1, List.of(uid(1))), fetch(server));
    }
    assertNothingHalfKept(0);
    assertRefused("ends before its last boundary");
  }

  @Test
  void endsABodyWithoutEnd() throws IOException {
    byte[] begun = part(object(folder, 0), "");
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> {
              if (request.head().contains("/instances?")) {
                to.write(listed(uid(0)));
                return;
              }
              to.write(ScriptedServer.head("200 OK", TYPE, ""));
              to.write(begun, 0, begun.length - 2);
              for (int i = 0; i < 1000; i++) {
                to.write(new byte[1 << 16]);
              }
            })) {
      IOException failure = assertThrows(IOException.class, () -> fetch(server));
      assertTrue(failure.getMessage().contains("an object is longer than"), failure.getMessage());
    }
    assertNothingHalfKept();
  }

  @Test
  void doesNotWaitForeverForASilentServer() throws Exception {
    CountDownLatch over = new CountDownLatch(1);
    byte[] begun = part(object(folder, 0), "");
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> {
              if (request.head().contains("/instances?")) {
                to.write(listed(uid(0)));
                return;
              }
              to.write(ScriptedServer.head("200 OK", TYPE, ""));
              to.write(begun, 0, begun.length / 2);
              to.flush();
              try {
                over.await();
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            })) {
      WebArchive.Fetched fetched = fetch(server.settings(Duration.ofSeconds(3), 0));
      assertEquals(new WebArchive.Fetched(0, List.of(uid(0))), fetched);
    } finally {
      over.countDown();
    }
    assertNothingHalfKept();
    assertRefused("the server was silent for 3 s");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "text/html | not multipart/related",
        "multipart/related; type=\"image/jpeg\"; boundary=tern-sound | not multipart/related",
        "multipart/related; type=\"application/dicom\" | no sound boundary",
        "multipart/related; boundary=\"\u00e9\" | no sound boundary",
        "nonsense | no sound Content-Type",
        "multipart/related; ;; | no sound Content-Type"
      })
  void refusesOtherTypes(String type, String words) throws IOException {
    byte[] body = joined(part(object(folder, 0), ""), end());
    try (ScriptedServer server = serving(ScriptedServer.answer("200 OK", type, body))) {
      assertEquals(new WebArchive.Fetched(0, List.of(uid(0), uid(1))), fetch(server));
    }
    assertNothingHalfKept();
    assertRefused(words);
  }

  @Test
  void refusesPartsOfOtherTypesAndCompressedAnswers() throws IOException {
    byte[] other =
        ScriptedServer.bytes("--" + BOUNDARY + "\r\nContent-Type: text/html\r\n\r\nno\r\n");
    try (ScriptedServer server = serving(chunkless(joined(other, end())))) {
      assertEquals(0, fetch(server).fetched());
    }
    assertRefused("a part is not of type application/dicom");
    try (ScriptedServer server =
        serving(ScriptedServer.head("200 OK", TYPE, "Content-Encoding: gzip\r\n"))) {
      assertEquals(0, fetch(server).fetched());
    }
    assertRefused("compressed");
    assertNothingHalfKept();
  }

  @Test
  void refusesLengthsThatLie() throws IOException {
    byte[] first = part(object(folder, 0), "Content-Length: 12\r\n");
    byte[] lying = object(folder, 1);
    lying[140] = (byte) 0xff;
    lying[141] = (byte) 0xff;
    try (ScriptedServer server = serving(chunkless(joined(first, part(lying, ""), end())))) {
      assertEquals(0, fetch(server).fetched());
    }
    assertNothingHalfKept();
    assertRefused("its length is not the one that was told");

    byte[] sound = joined(part(object(folder, 0), ""), end());
    byte[] more = joined(sound, new byte[100]);
    byte[] cut = ScriptedServer.answer("200 OK", TYPE, more);
    try (ScriptedServer server = serving(Arrays.copyOf(cut, cut.length - 120))) {
      assertEquals(0, fetch(server).fetched());
    }
    assertNothingHalfKept();
  }

  @Test
  void keepsNothingOfAnObjectWithTheBoundaryInIt() throws IOException {
    byte[] object = object(folder, 0);
    byte[] inside = ScriptedServer.bytes("\r\n--" + BOUNDARY + "\r\n");
    System.arraycopy(inside, 0, object, object.length - 60, inside.length);
    try (ScriptedServer server = serving(chunkless(joined(part(object, ""), end())))) {
      assertEquals(0, fetch(server).fetched());
    }
    assertNothingHalfKept();
  }

  @Test
  void keepsNothingThatHasAnotherNameThanItSays() throws IOException {
    String model = new String(object(folder, 0), StandardCharsets.ISO_8859_1);
    int data = model.lastIndexOf(uid(0));
    String path = "../../../../etc"; // as long as the UID
    assertEquals(uid(0).length(), path.length());
    String everywhere = model.replace(uid(0), path);
    String inside = model.substring(0, data) + path + model.substring(data + path.length());
    String otherStudy = model.replace(STUDY, STUDY.substring(0, STUDY.length() - 1) + "9");
    String otherSyntax = model.replace("1.2.840.10008.1.2.1\0", "1.2.840.10008.1.9.9\0");
    byte[] body =
        joined(
            part(ScriptedServer.bytes(everywhere), ""),
            part(ScriptedServer.bytes(inside), ""),
            part(ScriptedServer.bytes(otherStudy), ""),
            part(ScriptedServer.bytes(otherSyntax), ""),
            part(ScriptedServer.bytes("nonsense"), ""),
            end());
    try (ScriptedServer server = serving(chunkless(body))) {
      assertEquals(0, fetch(server).fetched());
    }
    assertNothingHalfKept();
    for (String words :
        List.of(
            "SOP Instance UID is not a UID",
            "data set and command name other objects",
            "an object of another study",
            "the transfer syntax is not one of those read",
            "not a DICOM file")) {
      assertRefused(words);
    }
  }

  @Test
  void keepsTheFirstOfTwoObjectsWithOneName() throws IOException {
    byte[] other =
        Files.readAllBytes(
            new TomographyBuilder()
                .with(object -> object.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid(0)))
                .with(object -> object.text(Tags.PATIENT_ID, Vr.LO, "TSEU-9"))
                .write(folder.resolve("other.dcm")));
    byte[] body = joined(part(object(folder, 0), ""), part(other, ""), end());
    try (ScriptedServer server = serving(chunkless(body))) {
      assertEquals(1, fetch(server).fetched());
    }
    assertNothingHalfKept(0);
    assertRefused("another object with this UID is kept already");
  }

  @Test
  void leavesOutPathLikeNamesInAList() throws IOException {
    try (ScriptedServer server =
        ScriptedServer.start((request, to) -> to.write(listed("../../etc", "1/../2", "")))) {
      assertEquals(new WebArchive.Fetched(0, List.of()), fetch(server));
      assertEquals(2, server.requests().size());
    }
    assertNothingHalfKept();
    assertRefused("without a sound UID");
  }

  @Test
  void followsNobodyElsewhere() throws IOException {
    try (ScriptedServer other = ScriptedServer.start((request, to) -> to.write(listed()));
        ScriptedServer server =
            ScriptedServer.start(
                (request, to) ->
                    to.write(
                        ScriptedServer.head(
                            "307 Elsewhere",
                            "text/plain",
                            "Location: " + other.settings().service() + "/studies\r\n")))) {
      IOException failure = assertThrows(IOException.class, () -> fetch(server));
      assertTrue(failure.getMessage().contains("sends us elsewhere (307"), failure.getMessage());
      assertEquals(List.of(), other.requests());
    }
  }
}

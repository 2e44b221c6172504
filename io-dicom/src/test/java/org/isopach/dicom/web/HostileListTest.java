package org.isopach.dicom.web;

import static org.isopach.dicom.web.WebObjects.STUDY;
import static org.isopach.dicom.web.WebObjects.text;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.isopach.dicom.network.FoundStudy;
import org.isopach.dicom.network.StudyQuery;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Lists of studies from servers of every kind. */
class HostileListTest {
  private static final StudyQuery QUERY = new StudyQuery("TSEU 7", "", "20260101-20260131");

  private final List<String> refused = new ArrayList<>();

  private List<FoundStudy> find(ScriptedServer server) throws IOException {
    return new WebArchive(server.settings(), (kind, line) -> refused.add(line)).find(QUERY);
  }

  private static String study(String uid, String patient, String date) {
    return "{"
        + text("0020", "000d", uid)
        + ","
        + text("0010", "0020", patient)
        + ","
        + text("0008", "0020", date)
        + ",\"00201208\":{\"vr\":\"IS\",\"Value\":[12]},"
        + "\"00080061\":{\"vr\":\"CS\",\"Value\":[\"OP\",\"OPT\"]},"
        + "\"00100010\":{\"vr\":\"PN\",\"Value\":[{\"Alphabetic\":\"Tideline^Wren\"}]}}";
  }

  @Test
  void takesOnlyWhatWasAskedFor() throws IOException {
    String all =
        "["
            + String.join(
                ",",
                study(STUDY, "TSEU 7", "20260131"),
                study("2.25.1", "TSEU 8", "20260131"),
                study("2.25.2", "TSEU 7", "20260201"),
                study("2.25.3", "TSEU 7", ""),
                study("../etc", "TSEU 7", "20260131"))
            + "]";
    try (ScriptedServer server =
        ScriptedServer.start((request, to) -> to.write(ScriptedServer.json(all)))) {
      assertEquals(List.of(new FoundStudy(STUDY, "20260131", "OP\\OPT", "12")), find(server));
      assertTrue(
          server
              .requests()
              .get(0)
              .head()
              .startsWith(
                  "GET /dicom-web/studies?PatientID=TSEU%207&StudyDate=20260101-20260131&limit="));
    }
    assertEquals(4, refused.size(), refused.toString());
    assertTrue(refused.stream().noneMatch(line -> line.contains("TSEU")), refused.toString());
  }

  @Test
  void turnsPagesUntilNothingNewComes() throws IOException {
    try (ScriptedServer server =
        ScriptedServer.start(
            (request, to) -> {
              int from =
                  Integer.parseInt(request.head().replaceAll("(?s).*offset=([0-9]+).*", "$1"));
              String[] some =
                  IntStream.range(from, Math.min(from + 500, 1100))
                      .mapToObj(i -> study("2.25." + (100 + i), "TSEU 7", "20260131"))
                      .toArray(String[]::new);
              to.write(ScriptedServer.json("[" + String.join(",", some) + "]"));
            })) {
      assertEquals(1100, find(server).size());
      assertEquals(3, server.requests().size());
    }
  }

  @Test
  void doesNotTurnForeverWhenPagesRepeat() throws IOException {
    String page =
        String.join(
            ",",
            IntStream.range(0, 500)
                .mapToObj(i -> study("2.25." + (100 + i), "TSEU 7", "20260131"))
                .toList());
    try (ScriptedServer server =
        ScriptedServer.start((request, to) -> to.write(ScriptedServer.json("[" + page + "]")))) {
      assertEquals(500, find(server).size());
    }
  }

  @Test
  void takesNoContentAndAnEmptyListForNone() throws IOException {
    for (String answer : List.of("HTTP/1.1 204 None\r\nConnection: close\r\n\r\n", "")) {
      byte[] bytes = answer.isEmpty() ? ScriptedServer.json("[]") : ScriptedServer.bytes(answer);
      try (ScriptedServer server = ScriptedServer.start((request, to) -> to.write(bytes))) {
        assertEquals(List.of(), find(server));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "[", "[{]", "null", "7", "[7]", "[{\"0020000D\":{\"Value\":[\"2.25.1\"]}}] x"})
  void refusesWhatIsNotDicomJson(String body) throws IOException {
    assertRefused(ScriptedServer.json(body), "not DICOM JSON");
  }

  @Test
  void refusesBombs() throws IOException {
    String deep = "[".repeat(100_000);
    assertRefused(ScriptedServer.json("[{\"0020000D\":{\"Value\":" + deep), "not DICOM JSON");
    assertRefused(ScriptedServer.json("[{\"x\":" + deep), "not DICOM JSON");
    String wide = "{\"x\":[" + "0,".repeat(5_000_000);
    assertRefused(ScriptedServer.json("[" + wide.repeat(2)), "longer than 16777216 bytes");
    assertRefused(ScriptedServer.json("[" + "{},".repeat(50_000)), "more than 20000 data sets");
    String text = "a".repeat(200_000);
    assertRefused(ScriptedServer.json("[" + study(text, "", "") + "]"), "not DICOM JSON");
  }

  private void assertRefused(byte[] answer, String words) throws IOException {
    try (ScriptedServer server = ScriptedServer.start((request, to) -> to.write(answer))) {
      IOException failure = assertThrows(IOException.class, () -> find(server));
      assertTrue(failure.getMessage().contains(words), failure.getMessage());
    }
  }
}

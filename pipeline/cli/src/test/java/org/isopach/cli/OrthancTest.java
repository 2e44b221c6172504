package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.read.InstanceIdentity;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** With an archive of others (Orthanc 1.10.1, Debian), by DIMSE and by DICOMweb. */
class OrthancTest {
  @TempDir static Path folder;

  private static OrthancServer server;
  private static Path study;

  @BeforeAll
  static void startWithOneVisit() throws Exception {
    OrthancServer.need();
    server = OrthancServer.start(Files.createDirectories(folder.resolve("orthanc")));
    Path both = folder.resolve("both");
    new PhantomStudy(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(both);
    study = both.resolve("DEPOSIT3").resolve("0000413C").resolve("7F100218");
    assertEquals(2, Folders.files(study).size());
    succeed("send", study, "--to", server.title());
  }

  @AfterAll
  static void stop() {
    if (server != null) {
      server.close();
    }
  }

  private static Call succeed(Object... words) throws IOException {
    Call call = Call.isopach(words);
    assertEquals(0, call.code(), call.out() + call.err() + server.log());
    return call;
  }

  @Test
  void letsNobodyInWithoutTheLogin() {
    Object[] words = server.byWeb("send", "--retries", "0");
    Object[] nameless = without(words, "--login-file");

    Call call = Call.isopach(nameless);

    assertEquals(4, call.code());
    assertTrue(call.err().contains("the server does not let us in (401)"), call.err());
  }

  /** Takes an option and its value out. */
  private static Object[] without(Object[] words, String option) {
    int at = Arrays.asList(words).indexOf(option);
    Object[] less = Arrays.copyOf(words, words.length - 2);
    System.arraycopy(words, at + 2, less, at, words.length - at - 2);
    return less;
  }

  @Test
  void givesStudiesByEveryWayAndTakesResultsBackUnderTheSameStudy() throws Exception {
    Map<String, Path> sent = byUid(study);
    String uid = InstanceIdentity.of(sent.values().iterator().next()).studyUid();
    String listed = "1 studies found\n  " + uid + "  20260203  OP\\OPT  2 objects\n";
    Object[] whose = {"--patient", PhantomStudy.PATIENT_ID};
    assertEquals(listed, plain(succeed(server.byWeb("fetch", whose))));
    assertEquals(listed, plain(succeed("fetch", "--from", server.title(), whose[0], whose[1])));

    Path web = folder.resolve("web");
    succeed(server.byWeb("fetch", "--study", uid, "--out", web));
    Path got = folder.resolve("got");
    succeed("fetch", "--from", server.title(), "--study", uid, "--out", got);
    Path moved = folder.resolve("moved");
    succeed(
        "fetch",
        "--from",
        server.title(),
        "--study",
        uid,
        "--out",
        moved,
        "--port",
        server.movePort());
    for (Path way : List.of(web, got, moved)) {
      assertEquals(sent.keySet(), byUid(way).keySet(), way.toString());
    }

    Path direct = folder.resolve("direct");
    succeed("measure", study, "--out", direct);
    Path run = folder.resolve("run");
    succeed("measure", web, "--out", run);
    SortedMap<String, String> before = Folders.results(direct);
    SortedMap<String, String> after = Folders.results(run);
    assertEquals(before.keySet(), after.keySet());
    assertTrue(before.containsKey("sectors.csv"));
    assertEquals(butForObjects(before), butForObjects(after));
    takeBack(uid, sent, direct.resolve("objects"));
  }

  private void takeBack(String uid, Map<String, Path> sent, Path objects) throws Exception {
    SortedMap<String, Path> derived = byUid(objects);
    assertTrue(derived.size() >= 5, derived.toString());
    Call stored = succeed(server.byWeb("send", objects, "--journal", folder.resolve("journal")));
    assertEquals(
        derived.size() + " objects sent, 0 sent before, 0 not acknowledged, 0 files of other kinds",
        stored.out().strip());
    Call again = succeed(server.byWeb("send", objects, "--journal", folder.resolve("journal")));
    assertTrue(again.out().startsWith("0 objects sent, " + derived.size() + " sent before"));
    succeed("send", objects, "--to", server.title());

    SortedMap<String, Path> expected = new TreeMap<>(derived);
    expected.putAll(sent);
    Path all = folder.resolve("all");
    Call fetched = succeed(server.byWeb("fetch", "--study", uid, "--out", all));
    assertTrue(fetched.out().contains(uid + ": " + expected.size() + " objects fetched, 0 not"));
    assertEquals(expected.keySet(), byUid(all.resolve(uid)).keySet());
    SortedMap<String, Path> back = byUid(all);
    for (Map.Entry<String, Path> one : derived.entrySet()) {
      assertArrayEquals(dataSet(one.getValue()), dataSet(back.get(one.getKey())), one.getKey());
    }
    Path allByGet = folder.resolve("all-by-get");
    succeed("fetch", "--from", server.title(), "--study", uid, "--out", allByGet);
    assertEquals(expected.keySet(), byUid(allByGet).keySet());
    toldWhatGetCannotFetch(uid);
  }

  /** This archive ends a C-GET at the first object for which no context was agreed. */
  private static void toldWhatGetCannotFetch(String uid) throws Exception {
    Path photograph = study.resolve("00000001");
    String name = InstanceIdentity.of(photograph).sopUid();
    String other = name.substring(0, name.length() - 1) + (name.endsWith("1") ? "2" : "1");
    String bytes =
        Files.readString(photograph, StandardCharsets.ISO_8859_1)
            .replace("1.2.840.10008.5.1.4.1.1.77.1.5.1", "1.2.840.10008.5.1.4.1.1.77.1.4.1")
            .replace(name, other);
    Path file = folder.resolve("general-photograph");
    Files.writeString(file, bytes, StandardCharsets.ISO_8859_1);
    succeed(server.byWeb("send", file));

    Call byGet =
        Call.isopach(
            "fetch", "--from", server.title(), "--study", uid, "--out", folder.resolve("less"));

    assertEquals(3, byGet.code(), byGet.err());
    assertTrue(byGet.out().contains("(C000"), byGet.out());
    Call byWeb = succeed(server.byWeb("fetch", "--study", uid, "--out", folder.resolve("more")));
    assertTrue(byWeb.out().contains(" objects fetched, 0 not"), byWeb.out());
    assertTrue(byUid(folder.resolve("more")).containsKey(other));
  }

  private static String plain(Call call) {
    return call.out().replace("\r\n", "\n");
  }

  private static SortedMap<String, Path> byUid(Path folder) throws Exception {
    SortedMap<String, Path> files = new TreeMap<>();
    for (Path file : Folders.files(folder)) {
      if (!file.endsWith(Path.of(".incoming", "lock"))) {
        files.put(InstanceIdentity.of(file).sopUid(), file);
      }
    }
    return files;
  }

  private static byte[] dataSet(Path file) throws Exception {
    byte[] all = Files.readAllBytes(file);
    return Arrays.copyOfRange(all, (int) InstanceIdentity.of(file).datasetStart(), all.length);
  }

  /**
   * Tables and pictures are equal to the byte. UIDs of objects follow from the digest of their
   * source file, and this archive encodes anew what comes by C-STORE (sequences get lengths).
   */
  /** Objects and reports name the digest of the file they were made from, which is another one. */
  private static SortedMap<String, String> butForObjects(SortedMap<String, String> files) {
    SortedMap<String, String> others = new TreeMap<>(files);
    others.keySet().removeIf(name -> name.startsWith("objects/") || name.startsWith("reports/"));
    return others;
  }
}

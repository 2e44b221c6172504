package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Maps of change, ours and an invented other system's, beside our change of the same scans. */
class CrosscheckChangeTest {
  private static final Code THEIRS = new Code("D-7", "99GANNET", "Later less earlier");

  @TempDir static Path shared;

  private static Path objects;
  private static Call call;
  private static List<Map<String, String>> lines;

  @BeforeAll
  static void measureThenCrosscheck() throws Exception {
    Path study = shared.resolve("in/study");
    new PhantomStudy(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(study);
    Path run = shared.resolve("run");
    Call measured =
        Call.isopach(
            "compare",
            study,
            "--out",
            run,
            "--baseline",
            "first",
            "--layer",
            "ILM-RPE,GCL+IPL",
            "--skip",
            "pictures");
    assertTrue(measured.code() == 0 || measured.code() == 3, measured.err());
    objects = Files.createDirectory(shared.resolve("in/objects"));
    List<Path> changes =
        Folders.files(run.resolve("objects")).stream()
            .filter(file -> file.toString().endsWith("_change.dcm"))
            .toList();
    assertEquals(4, changes.size(), "two layers of two eyes");
    for (Path change : changes) {
      Files.copy(change, objects.resolve(change.getFileName()));
    }
    Path rpe = changes.stream().filter(f -> f.toString().contains("ILM-RPE")).findFirst().get();
    foreign(rpe);
    call =
        Call.isopach(
            "crosscheck",
            shared.resolve("in"),
            "--out",
            shared.resolve("again"),
            "--layer",
            "ILM-RPE,GCL+IPL",
            "--change",
            "99GANNET:D-7=ILM-RPE",
            "--skip",
            "pictures,boundaries,reports");
    lines = CrossRows.of(shared.resolve("again/crosscheck.csv"));
  }

  private static void foreign(Path rpe) throws Exception {
    ForeignObject.of(rpe, "2.25.2001")
        .inEvery(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE, CrosscheckChangeTest::theirs)
        .inEvery(Tags.DERIVATION_IMAGE_SEQUENCE, CrosscheckChangeTest::otherOrder)
        .pixels(CrosscheckChangeTest::fiveMore)
        .write(objects.resolve("theirs"));
    ForeignObject.of(rpe, "2.25.2002")
        .inEvery(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            item -> item.toBuilder().remove(Tags.QUANTITY_DEFINITION_SEQUENCE).build())
        .write(objects.resolve("without-code"));
    ForeignObject.of(rpe, "2.25.2003")
        .inEvery(Tags.DERIVATION_IMAGE_SEQUENCE, item -> elsewhere(item, "2.25.404"))
        .write(objects.resolve("other-baseline"));
    ForeignObject.of(rpe, "2.25.2004")
        .inEvery(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            item -> definition(item, item.items(Tags.QUANTITY_DEFINITION_SEQUENCE).subList(0, 1)))
        .write(objects.resolve("of-no-layer"));
    ForeignObject.of(rpe, "2.25.2005")
        .with(b -> b.text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, "2.25.405"))
        .write(objects.resolve("in-another-frame"));
    ForeignObject.of(rpe, "2.25.2006")
        .inEvery(Tags.DERIVATION_IMAGE_SEQUENCE, CrosscheckChangeTest::oneSource)
        .write(objects.resolve("one-source"));
    ForeignObject.of(rpe, "2.25.2007")
        .inEvery(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE, CrosscheckChangeTest::median)
        .write(objects.resolve("a-statistic"));
  }

  private static Dataset theirs(Dataset item) {
    return definition(
            item,
            List.of(Dataset.builder().items(Tags.CONCEPT_CODE_SEQUENCE, THEIRS.toItem()).build()))
        .toBuilder()
        .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.FD, -1e6)
        .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.FD, 1e6)
        .build();
  }

  private static Dataset median(Dataset item) {
    Dataset both = theirs(item);
    List<Dataset> parts = new ArrayList<>(both.items(Tags.QUANTITY_DEFINITION_SEQUENCE));
    Code median = new Code("373099004", "SCT", "Median");
    parts.add(Dataset.builder().items(Tags.CONCEPT_CODE_SEQUENCE, median.toItem()).build());
    return definition(both, parts);
  }

  private static Dataset definition(Dataset item, List<Dataset> parts) {
    return item.toBuilder().items(Tags.QUANTITY_DEFINITION_SEQUENCE, parts).build();
  }

  private static Dataset otherOrder(Dataset item) {
    List<Dataset> sources = new ArrayList<>(item.items(Tags.SOURCE_IMAGE_SEQUENCE));
    Collections.reverse(sources);
    return item.toBuilder().items(Tags.SOURCE_IMAGE_SEQUENCE, sources).build();
  }

  private static Dataset elsewhere(Dataset item, String uid) {
    List<Dataset> sources = new ArrayList<>(item.items(Tags.SOURCE_IMAGE_SEQUENCE));
    sources.set(
        1, sources.get(1).toBuilder().text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, uid).build());
    return item.toBuilder().items(Tags.SOURCE_IMAGE_SEQUENCE, sources).build();
  }

  private static Dataset oneSource(Dataset item) {
    return item.toBuilder()
        .items(Tags.SOURCE_IMAGE_SEQUENCE, item.items(Tags.SOURCE_IMAGE_SEQUENCE).subList(0, 1))
        .build();
  }

  private static byte[] fiveMore(byte[] floats) {
    ByteBuffer buffer = ByteBuffer.wrap(floats).order(ByteOrder.LITTLE_ENDIAN);
    for (int at = 0; at < floats.length; at += Float.BYTES) {
      buffer.putFloat(at, buffer.getFloat(at) + 5);
    }
    return floats;
  }

  private static List<Map<String, String>> of(String uid) {
    List<Map<String, String>> found =
        lines.stream().filter(line -> line.get("object_uid").equals(uid)).toList();
    assertTrue(!found.isEmpty(), uid + " is in no line: " + call.err());
    return found;
  }

  private static void assertNotCompared(String uid, String reason) {
    for (Map<String, String> line : of(uid)) {
      assertEquals("false", line.get("comparable"), line.toString());
      assertEquals("", line.get("difference"), line.toString());
      assertTrue(line.get("reason").contains(reason), line.toString());
    }
  }

  /** What the first run wrote is what the second one finds, to a float's precision. */
  @Test
  void oursDifferByNothing() throws IOException {
    List<Map<String, String>> ours =
        lines.stream().filter(line -> line.get("object_software").startsWith("Isopach")).toList();
    assertEquals(4, ours.stream().map(line -> line.get("object_uid")).distinct().count());
    assertEquals(4 * 12, ours.size(), ours.toString());
    Map<String, List<String>> table = changeTable();
    int compared = 0;
    for (Map<String, String> line : ours) {
      assertEquals("change", line.get("quantity"), line.toString());
      assertEquals("um", line.get("unit"));
      if (line.get("comparable").equals("true")) {
        compared++;
        assertEquals(0, Double.parseDouble(line.get("difference")), 0.0011, line.toString());
        assertEquals("frame-of-reference", line.get("placed_by"));
        assertTrue(line.get("remark").contains("change since "), line.toString());
        if (line.get("place").equals("cells")) {
          assertEquals("0", line.get("only_theirs"), line.toString());
          assertEquals("0", line.get("only_ours"), line.toString());
        } else if (!line.get("place").equals("centre-point")) {
          List<String> row =
              table.get(line.get("sop_uid") + line.get("our_definition") + line.get("place"));
          assertTrue(row.contains(line.get("ours")), line.get("ours") + " of " + row);
        }
      }
    }
    assertTrue(compared > 20, lines.toString());
  }

  /** The rows of change.csv of the run that wrote the objects. */
  private static Map<String, List<String>> changeTable() throws IOException {
    Map<String, List<String>> table = new java.util.TreeMap<>();
    for (Map<String, String> row : CrossRows.of(shared.resolve("run/change.csv"))) {
      table.put(
          row.get("sop_uid") + row.get("layer") + row.get("sector"), List.copyOf(row.values()));
    }
    return table;
  }

  /** Whatever the order of sources, it is the later less the earlier. */
  @Test
  void fiveMicrometresMoreAreToldSo() {
    List<Map<String, String>> theirs = of("2.25.2001");
    assertEquals(12, theirs.size());
    for (Map<String, String> line : theirs) {
      assertEquals("true", line.get("comparable"), line.toString());
      assertEquals(5, Double.parseDouble(line.get("difference")), 0.0011, line.toString());
      assertEquals("ILM-RPE", line.get("our_definition"));
      assertTrue(line.get("their_definition").contains("D-7"), line.toString());
    }
  }

  @Test
  void whatIsMissingIsSaid() {
    assertNotCompared("2.25.2002", "that it is a change between its two scans only a code can say");
    assertNotCompared("2.25.2003", "of which 2.25.404 is not among the inputs");
    assertNotCompared("2.25.2004", "the change of a thickness that no layer of ours has the code");
    assertNotCompared("2.25.2005", "not lie in the coordinates of either of its scans");
    assertNotCompared("2.25.2006", "a change is between two scans; this map names 1 source");
    assertNotCompared("2.25.2007", "it is another quantity than the change alone");
    assertEquals(3, call.code(), call.err());
  }

  @Test
  void aWrongMeaningIsAWrongCall() {
    Path in = shared.resolve("in");
    Call wrong = Call.isopach("crosscheck", in, "--out", shared.resolve("no"), "--change", "A:B=C");
    assertEquals(2, wrong.code());
    assertTrue(wrong.err().contains("'C' is not a layer"), wrong.err());
  }
}

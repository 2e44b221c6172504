package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Values that stand where no text is expected, or that look like the standard's own. */
class HostileValuesTest {
  private static final Options OPTIONS = new Options(true, false, false);

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "1.2.840.10008./../../../../esc",
        "1.2.840.10008.5/../../esc",
        "../../esc",
        "/esc",
        "1.2.840.10008.5.1.4.1.1.77.1.5.4 x"
      })
  void noUidLeadsOutOfTheFolder(String uid) throws Exception {
    Path in = Files.createDirectories(folder.resolve("a/b/c/d/in"));
    Path out = in.resolveSibling("out");
    new TomographyBuilder()
        .with(b -> b.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid))
        .write(in.resolve("hostile"));
    new TomographyBuilder().write(in.resolve("usual"));
    List<Path> before = files(folder);

    List<Outcome> outcomes = run(in, out);

    assertEquals(
        "its SOP Instance UID has not the form of a UID (PS3.5, 9.1)", outcomes.get(0).refused());
    assertTrue(outcomes.get(1).written().isPresent(), "the others are copied");
    assertEquals(before, files(folder).stream().filter(file -> !file.startsWith(out)).toList());
  }

  /** Of PS3.6, table A-1, the SOP class and the coding scheme are; the rest begins like them. */
  @Test
  void onlyRegisteredUidsAreTheStandardsOwn() throws Exception {
    String invented = "1.2.840.10008.19500102.4711";
    String tomography = "1.2.840.10008.5.1.4.1.1.77.1.5.4";
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(Tags.SOP_INSTANCE_UID, Vr.UI, invented + ".1")
                    .text(Tags.STUDY_INSTANCE_UID, Vr.UI, invented)
                    .text(Tags.SERIES_INSTANCE_UID, Vr.UI, tomography)
                    .text(0x0008_010C, Vr.UI, "1.2.840.10008.2.16.4")
                    .text(0x0008_0117, Vr.UI, invented + ".2")
                    .text(Tags.MANUFACTURER, Vr.LO, "by " + invented))
        .write(in.resolve("a"));

    Outcome one = run(in, folder.resolve("out")).get(0);

    Path copy = folder.resolve("out").resolve(one.written().orElseThrow());
    assertFalse(copy.toString().contains("19500102"));
    assertFalse(Files.readString(copy, StandardCharsets.ISO_8859_1).contains("19500102"));
    Dataset data = attributes(copy);
    assertEquals(tomography, data.text(Tags.SOP_CLASS_UID).orElseThrow());
    assertEquals("1.2.840.10008.2.16.4", data.text(0x0008_010C).orElseThrow());
    assertNotEquals(tomography, data.text(Tags.SERIES_INSTANCE_UID).orElseThrow());
  }

  private static Dataset attributes(Path file) throws Exception {
    return ParsedObject.of(file, new PixelMedObjectReader()).attributes();
  }

  private static List<Outcome> run(Path in, Path out) throws Exception {
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    return Deidentifiers.of(new Pseudonyms(key)).run(List.of(in), OutFolder.open(out, OPTIONS));
  }

  private static List<Path> files(Path root) throws Exception {
    try (Stream<Path> files = Files.walk(root)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    }
  }
}

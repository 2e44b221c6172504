package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A copy still says what its numbers are good for; the wordings are those of all versions. */
class CautionStaysTest {
  private static final Options OPTIONS = new Options(true, false, false);

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(
      strings = {
        Caution.LINE,
        Caution.SHORT,
        "Research use. Not a diagnosis: the clinician decides, and local rules apply.",
        "Visits registered. Research use. Not a diagnosis.",
        "Research use. Not a diagnosis."
      })
  void aCautionIsNoFreeText(String caution) throws Exception {
    assertEquals(Optional.of(caution), comments(caution));
  }

  @Test
  void aCautionWithMoreInItIsFreeText() throws Exception {
    String more = Caution.LINE + " Seen by Dr Dunlin.";
    assertNotEquals(Optional.of(more), comments(more));
  }

  private Optional<String> comments(String text) throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(b -> b.text(Tags.IMAGE_COMMENTS, Vr.LT, text))
        .write(in.resolve("a"));
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    Path out = folder.resolve("out");
    Pseudonyms names = new Pseudonyms(key);
    Outcome one =
        Deidentifiers.of(names).run(List.of(in), OutFolder.open(out, OPTIONS, names)).get(0);
    Path copy = out.resolve(one.written().orElseThrow());
    return ParsedObject.of(copy, new PixelMedObjectReader()).attributes().text(Tags.IMAGE_COMMENTS);
  }
}

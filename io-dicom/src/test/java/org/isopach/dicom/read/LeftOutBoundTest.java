package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.BufferedOutputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A file of nothing but empty private attributes does not fill the memory. */
class LeftOutBoundTest {
  /** (0009,1010), LO, without a value; explicit VR little endian (PS3.5, 7.1.2). */
  private static final byte[] EMPTY = {9, 0, 0x10, 0x10, 'L', 'O', 0, 0};

  @TempDir Path folder;

  @Test
  void moreThanAMillionAreRefused() throws Exception {
    Path model = folder.resolve("model");
    new TomographyBuilder().write(model);
    int start = (int) ObjectSniff.of(FileBytes.of(model)).datasetStart();
    Path file = folder.resolve("private.dcm");
    try (OutputStream to = new BufferedOutputStream(Files.newOutputStream(file))) {
      to.write(Arrays.copyOf(Files.readAllBytes(model), start));
      for (int i = 0; i <= HeaderScan.MOST_LEFT_OUT; i++) {
        to.write(EMPTY);
      }
    }

    ObjectDefect refused =
        assertThrows(ObjectDefect.class, () -> ParsedObject.of(file, new PixelMedObjectReader()));

    assertEquals(FindingKind.UNSUPPORTED_ENCODING, refused.kind());
    assertEquals("there are more than 1000000 private or large attributes", refused.detail());
  }
}

package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Ways to write one object that differ in nothing that is measured. */
class EncodingTest {
  @TempDir Path folder;

  /**
   * Without preamble and file meta information (-F), with undefined or explicit lengths (-e, +e),
   * with group lengths (+g); fragments of 1 KiB (+fs 1), with and without offset table (+ot, -ot).
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "dcmconv -F +ti",
        "dcmconv -F +te",
        "dcmconv -F +tb",
        "dcmconv +te -e",
        "dcmconv +ti -e",
        "dcmconv +te +g",
        "dcmconv +tb +g -e",
        "dcmcrle +ot",
        "dcmcrle -ot",
        "dcmcjpeg +e1 +ot",
        "dcmcjpeg +e1 -ot",
        "dcmcjpeg +e1 +fs 1 +ot",
        "dcmcjpeg +e1 +fs 1 -ot"
      })
  void sameGreyValues(String command) throws Exception {
    TomographyBuilder builder = new TomographyBuilder().size(3, 61, 53).pixels(16, 12, false);
    Path original = builder.write(folder.resolve("original"));
    List<String> line = new ArrayList<>(List.of(command.split(" ")));
    line.add(original.toString());
    line.add(folder.resolve("converted").toString());
    OutsideTool.run(line);
    assertGreyValues(builder, only(folder.resolve("converted")));
  }

  @Test
  void preambleAloneWithoutMetaInformation() throws Exception {
    TomographyBuilder builder = new TomographyBuilder();
    byte[] whole = Files.readAllBytes(builder.write(folder.resolve("original")));
    int dataset = indexOf(whole, new byte[] {0x08, 0, 0x16, 0});
    byte[] preamble = Arrays.copyOf(whole, 132);
    byte[] bare = Arrays.copyOfRange(whole, dataset, whole.length);
    byte[] file = Arrays.copyOf(preamble, 132 + bare.length);
    System.arraycopy(bare, 0, file, 132, bare.length);
    Files.write(folder.resolve("odd"), file);
    assertGreyValues(builder, only(folder.resolve("odd")));
  }

  @Test
  void metaInformationWithoutPreamble() throws Exception {
    TomographyBuilder builder = new TomographyBuilder();
    byte[] whole = Files.readAllBytes(builder.write(folder.resolve("original")));
    Files.write(folder.resolve("odd"), Arrays.copyOfRange(whole, 132, whole.length));
    assertGreyValues(builder, only(folder.resolve("odd")));
  }

  @Test
  void smallValuesWhite() throws Exception {
    for (boolean signed : new boolean[] {false, true}) {
      TomographyBuilder builder =
          new TomographyBuilder()
              .pixels(16, 12, signed)
              .with(b -> b.text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME1"));
      OctScan scan = only(builder.write(folder.resolve("scan")));
      assertEquals(signed ? new GreyRange(-2048, 2047) : new GreyRange(0, 4095), scan.grey());
      float[] frame = new float[35];
      scan.frames().read(2, frame);
      int stored = builder.stored(2, 3, 4);
      assertEquals(signed ? -1 - stored : 4095 - stored, frame[4 * 7 + 3]);
    }
  }

  @Test
  void storedBitsAtTheTopOfTheCell() throws Exception {
    TomographyBuilder builder =
        new TomographyBuilder()
            .pixels(16, 16, false)
            .with(b -> b.numbers(Tags.BITS_STORED, Vr.US, 12));
    OctScan scan = only(builder.write(folder.resolve("scan")));
    float[] frame = new float[35];
    scan.frames().read(1, frame);
    assertEquals(builder.stored(1, 5, 2) >> 4, frame[2 * 7 + 5]);
  }

  private static OctScan only(Path file) {
    FolderContents contents = DicomFolder.reader().read(List.of(file));
    assertEquals(
        List.of(FindingKind.REFERENCE_IMAGE_MISSING),
        contents.findings().stream().map(f -> f.kind()).toList(),
        contents.findings().toString());
    return contents.scans().get(0);
  }

  private static void assertGreyValues(TomographyBuilder builder, OctScan scan) throws Exception {
    float[] frame = new float[scan.size().framePixels()];
    for (int f = 0; f < scan.size().frames(); f++) {
      scan.frames().read(f, frame);
      for (int i = 0; i < frame.length; i++) {
        int ascans = scan.size().ascans();
        assertEquals(builder.stored(f, i % ascans, i / ascans), frame[i], "frame " + f);
      }
    }
  }

  private static int indexOf(byte[] bytes, byte[] part) throws IOException {
    for (int i = 132; i + part.length <= bytes.length; i++) {
      if (Arrays.equals(bytes, i, i + part.length, part, 0, part.length)) {
        return i;
      }
    }
    throw new IOException("not found");
  }
}

package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.zip.Deflater;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Files cut short, with lying lengths or with flipped bytes end in findings, whatever they hold.
 */
class DamagedFileTest {
  private static final int TINY = 61;

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({"+te", "+ti", "+tb", "+td", "+te +e", "+te -e"})
  void cutAnywhere(String options) throws IOException {
    byte[] whole = Files.readAllBytes(converted("dcmconv", options.split(" ")));
    assertEquals(List.of(FindingKind.REFERENCE_IMAGE_MISSING), kinds(read(whole)));
    for (int length = 140; length < whole.length; length += TINY) {
      FolderContents contents = read(Arrays.copyOf(whole, length));
      assertEquals(List.of(), contents.scans(), "cut at " + length);
      Set<FindingKind> usual = Set.of(FindingKind.TRUNCATED, FindingKind.PIXEL_DATA_SHORT);
      boolean early = kinds(contents).equals(List.of(FindingKind.NOT_OPHTHALMIC));
      assertTrue(
          early || (usual.containsAll(kinds(contents)) && !kinds(contents).isEmpty()),
          "cut at " + length + ": " + contents.findings());
    }
  }

  @Test
  void cutFragments() throws IOException {
    byte[] whole = Files.readAllBytes(converted("dcmcrle"));
    for (int cut = 1; cut < 120; cut += 7) {
      FolderContents contents = read(Arrays.copyOf(whole, whole.length - cut));
      assertEquals(List.of(FindingKind.TRUNCATED), kinds(contents), "without the last " + cut);
    }
  }

  @Test
  void lastPixelMissing() throws IOException {
    byte[] whole = Files.readAllBytes(new TomographyBuilder().write(folder.resolve("scan")));
    FolderContents contents = read(Arrays.copyOf(whole, whole.length - 1));
    assertEquals(List.of(FindingKind.TRUNCATED), kinds(contents));
    assertTrue(contents.findings().get(0).detail().contains("claims 106 bytes where 105"));
  }

  @ParameterizedTest
  @ValueSource(longs = {0xffffffffL, 0xfffffffeL, 0x7fffffffL, 0x7ffffff0L, 1_000_000})
  void lyingLengths(long length) throws IOException {
    byte[] whole = Files.readAllBytes(new TomographyBuilder().write(folder.resolve("scan")));
    int sequences = 0;
    for (int i = 140; i + 12 < whole.length; i++) {
      boolean longForm =
          (whole[i] == 'S' && whole[i + 1] == 'Q') || (whole[i] == 'O' && whole[i + 1] == 'B');
      boolean item = whole[i] == (byte) 0xfe && whole[i + 1] == (byte) 0xff && whole[i + 3] != -32;
      if (longForm || item) {
        byte[] lying = whole.clone();
        ByteBuffer.wrap(lying).order(ByteOrder.LITTLE_ENDIAN).putInt(i + 4, (int) length);
        FolderContents contents = read(lying);
        assertFalse(contents.findings().isEmpty());
        sequences++;
      }
    }
    assertTrue(sequences > 10, "only " + sequences + " lengths were made to lie");
  }

  @ParameterizedTest
  @CsvSource({"+te", "+ti", "+tb", "+td"})
  void flippedBytesNeverThrow(String option) throws IOException {
    byte[] whole = Files.readAllBytes(converted("dcmconv", option));
    Random random = new Random(option.hashCode());
    for (int round = 0; round < 400; round++) {
      byte[] damaged = whole.clone();
      for (int k = 0; k <= round % 4; k++) {
        damaged[132 + random.nextInt(damaged.length - 132)] = (byte) random.nextInt(256);
      }
      FolderContents contents = read(damaged);
      contents
          .scans()
          .forEach(
              scan -> {
                float[] frame = new float[scan.size().framePixels()];
                try {
                  scan.frames().read(0, frame);
                } catch (FrameReadException e) {
                  assertFalse(e.getMessage().isEmpty());
                }
              });
      assertEquals(1, contents.filesSeen());
    }
  }

  @Test
  void deepNestingIsRefused() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    byte[] whole = Files.readAllBytes(new TomographyBuilder().write(folder.resolve("scan")));
    int at = indexOf(whole, new byte[] {0x08, 0x00, 0x70, 0x00, 'L', 'O'});
    out.write(whole, 0, at);
    byte[] open = {
      0x08, 0x00, 0x40, 0x11, 'S', 'Q', 0, 0, -1, -1, -1, -1, -2, -1, 0, -32, -1, -1, -1, -1
    };
    for (int i = 0; i < 20_000; i++) {
      out.write(open);
    }
    FolderContents contents = read(out.toByteArray());
    assertEquals(List.of(FindingKind.MALFORMED_ATTRIBUTE), kinds(contents));
    assertTrue(contents.findings().get(0).detail().contains("nested"));
  }

  @ParameterizedTest
  @CsvSource({
    "dcmcrle, PIXEL_DATA_SHORT",
    "dcmcjpeg +e1, MALFORMED_ATTRIBUTE",
    "gdcmconv --j2k, MALFORMED_ATTRIBUTE"
  })
  void compressedFramesSmallerThanPromised(String command, FindingKind kind) throws IOException {
    List<String> words = List.of(command.split(" "));
    String[] options = words.subList(1, words.size()).toArray(String[]::new);
    TomographyBuilder builder = new TomographyBuilder().size(3, 37, 21);
    byte[] whole = Files.readAllBytes(converted(builder, words.get(0), options));
    int columns = indexOf(whole, new byte[] {0x28, 0, 0x11, 0, 'U', 'S'});
    whole[columns + 9] = (byte) 0xf0;
    assertEquals(List.of(kind), kinds(read(whole)));
  }

  @Test
  void damagedFirstFrameLeavesTheOthersReadable() throws Exception {
    byte[] whole = Files.readAllBytes(converted("dcmcjpeg", "+e1"));
    int start = indexOf(whole, new byte[] {(byte) 0xff, (byte) 0xd8, (byte) 0xff});
    Arrays.fill(whole, start + 3, start + 20, (byte) 0);
    FolderContents contents = read(whole);
    assertEquals(List.of(FindingKind.REFERENCE_IMAGE_MISSING), kinds(contents));
    OctScan scan = contents.scans().get(0);
    float[] frame = new float[scan.size().framePixels()];
    assertThrows(FrameReadException.class, () -> scan.frames().read(0, frame));
    scan.frames().read(1, frame);
    assertEquals(new TomographyBuilder().stored(1, 3, 4), frame[4 * 7 + 3]);
  }

  @Test
  void packedDataSetThatUnpacksWithoutEnd() throws IOException {
    byte[] deflated = Files.readAllBytes(converted("dcmconv", "+td"));
    int start = 132 + 12 + ByteBuffer.wrap(deflated).order(ByteOrder.LITTLE_ENDIAN).getInt(140);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(deflated, 0, start);
    Deflater deflater = new Deflater(1, true);
    byte[] zeros = new byte[1 << 20];
    byte[] packed = new byte[1 << 20];
    for (int i = 0; i < 600; i++) {
      deflater.setInput(zeros);
      while (!deflater.needsInput()) {
        out.write(packed, 0, deflater.deflate(packed));
      }
    }
    deflater.finish();
    while (!deflater.finished()) {
      out.write(packed, 0, deflater.deflate(packed));
    }
    deflater.end();
    assertEquals(List.of(FindingKind.UNSUPPORTED_ENCODING), kinds(read(out.toByteArray())));
  }

  private Path converted(String tool, String... options) {
    return converted(new TomographyBuilder(), tool, options);
  }

  private Path converted(TomographyBuilder builder, String tool, String... options) {
    Path original = builder.write(folder.resolve("original"));
    Path target = folder.resolve("converted");
    List<String> command = new java.util.ArrayList<>(List.of(tool));
    command.addAll(List.of(options));
    command.add(original.toString());
    command.add(target.toString());
    OutsideTool.run(command);
    return target;
  }

  private FolderContents read(byte[] bytes) throws IOException {
    Path file = folder.resolve("damaged");
    Files.write(file, bytes);
    return DicomFolder.reader().read(List.of(file));
  }

  private static List<FindingKind> kinds(FolderContents contents) {
    return contents.findings().stream().map(f -> f.kind()).toList();
  }

  private static int indexOf(byte[] bytes, byte[] part) {
    for (int i = 0; i + part.length <= bytes.length; i++) {
      if (Arrays.equals(bytes, i, i + part.length, part, 0, part.length)) {
        return i;
      }
    }
    throw new AssertionError("not found");
  }
}

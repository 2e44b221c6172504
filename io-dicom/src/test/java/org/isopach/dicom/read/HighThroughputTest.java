package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.fixture.WrappedStreams;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** High-throughput JPEG 2000 frames encoded by OpenJPH have the grey values that were encoded. */
class HighThroughputTest {
  private static final String LOSSLESS = "1.2.840.10008.1.2.4.201";

  @TempDir Path folder;

  static Stream<Arguments> encodings() {
    List<String> reversible = List.of("-reversible", "true");
    return Stream.of(
        Arguments.of(LOSSLESS, 8, reversible),
        Arguments.of(LOSSLESS, 12, reversible),
        Arguments.of(LOSSLESS, 16, reversible),
        Arguments.of(
            "1.2.840.10008.1.2.4.202", 12, List.of("-reversible", "true", "-prog_order", "RPCL")));
  }

  @ParameterizedTest(name = "{0} {1} bits")
  @MethodSource("encodings")
  void greyValuesAreThoseEncoded(String syntax, int bits, List<String> options) throws Exception {
    TomographyBuilder made = scan(bits);
    OctScan scan =
        read(
            made,
            WrappedStreams.highThroughput(made, bits, folder, options.toArray(String[]::new)),
            syntax);
    float[] frame = new float[scan.size().framePixels()];
    for (int f = 0; f < 3; f++) {
      scan.frames().read(f, frame);
      for (int i = 0; i < frame.length; i++) {
        assertEquals(made.stored(f, i % 37, i / 37), frame[i], "pixel " + i);
      }
    }
  }

  /** A frame that was read is not decoded again: it outlives the file, one not read does not. */
  @Test
  void aFrameIsDecodedOnce() throws Exception {
    TomographyBuilder made = scan(12);
    OctScan scan =
        read(
            made, WrappedStreams.highThroughput(made, 12, folder, "-reversible", "true"), LOSSLESS);
    float[] first = new float[scan.size().framePixels()];
    float[] again = new float[first.length];
    scan.frames().read(1, first);
    Files.delete(Path.of(scan.document().location()));
    scan.frames().read(1, again);

    assertArrayEquals(first, again);
    assertThrows(FrameReadException.class, () -> scan.frames().read(2, again));
  }

  /** Lossy: what OpenJPH's own decoder gives, within one grey value. */
  @Test
  void lossyGreyValuesAreThoseOfAnotherDecoder() throws Exception {
    TomographyBuilder made = scan(12);
    List<byte[]> streams =
        WrappedStreams.highThroughput(made, 12, folder, "-reversible", "false", "-qstep", "0.0005");
    OctScan scan = read(made, streams, "1.2.840.10008.1.2.4.203");
    float[] frame = new float[scan.size().framePixels()];
    for (int f = 0; f < 3; f++) {
      scan.frames().read(f, frame);
      int[] expected = WrappedStreams.expanded(streams.get(f), frame.length, folder);
      for (int i = 0; i < frame.length; i++) {
        assertEquals(expected[i], frame[i], 1, "pixel " + i);
      }
    }
  }

  @Test
  void aDamagedFrameIsNamedAndTheOthersAreRead() throws Exception {
    TomographyBuilder made = scan(12);
    List<byte[]> streams =
        new ArrayList<>(WrappedStreams.highThroughput(made, 12, folder, "-reversible", "true"));
    streams.set(1, Arrays.copyOf(streams.get(1), 200));

    OctScan scan = read(made, streams, LOSSLESS);

    float[] frame = new float[scan.size().framePixels()];
    FrameReadException damaged =
        assertThrows(FrameReadException.class, () -> scan.frames().read(1, frame));
    assertTrue(damaged.getMessage().contains("frame 2 could not be decoded"));
    scan.frames().read(2, frame);
    assertEquals(made.stored(2, 0, 0), frame[0]);
  }

  @Test
  void aPictureOfAnotherSizeIsNotDecoded() throws Exception {
    List<byte[]> streams =
        WrappedStreams.highThroughput(scan(12), 12, folder, "-reversible", "true");
    Path in = Files.createDirectories(folder.resolve("in"));
    WrappedStreams.write(scan(12).size(3, 38, 21), streams, LOSSLESS, in.resolve("scan"));

    FolderContents contents = DicomFolder.reader().read(List.of(in));

    assertTrue(contents.scans().isEmpty());
    assertEquals(FindingKind.MALFORMED_ATTRIBUTE, contents.findings().get(0).kind());
    assertTrue(contents.findings().get(0).detail().contains("the compressed frame has 21 and 37"));
  }

  private static TomographyBuilder scan(int bits) {
    return new TomographyBuilder().smooth().size(3, 37, 21).pixels(bits > 8 ? 16 : 8, bits, false);
  }

  private OctScan read(TomographyBuilder made, List<byte[]> streams, String syntax)
      throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    WrappedStreams.write(made, streams, syntax, in.resolve("scan"));
    new LocalizerBuilder().write(in.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(in));
    assertEquals(List.of(), contents.findings());
    assertEquals(syntax, contents.descriptions().get(0).transferSyntaxUid());
    return contents.scans().get(0);
  }
}

package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Objects re-encoded by the general-purpose tools dcmtk and gdcm are read with the grey values that
 * were written, in every transfer syntax and bit depth. Lossy ones are near what was written, and
 * within 2 grey values of what gdcm decodes from the same bytes.
 */
class TransferSyntaxTest {
  @TempDir Path folder;

  /** Bits allocated, stored, signed. */
  private record Bits(int allocated, int stored, boolean signed) {
    @Override
    public String toString() {
      return (signed ? "signed " : "unsigned ") + stored + " in " + allocated;
    }
  }

  private static final Bits U8 = new Bits(8, 8, false);
  private static final Bits S8 = new Bits(8, 8, true);
  private static final Bits U12 = new Bits(16, 12, false);
  private static final Bits S12 = new Bits(16, 12, true);
  private static final Bits U16 = new Bits(16, 16, false);
  private static final Bits S16 = new Bits(16, 16, true);

  static Stream<Arguments> lossless() {
    return lossless(List.of(U8, S8, U12, S12, U16, S16));
  }

  static Stream<Arguments> losslessOnce() {
    return lossless(List.of(U12));
  }

  private static Stream<Arguments> lossless(List<Bits> allBits) {
    List<Arguments> cases = new ArrayList<>();
    for (Bits bits : allBits) {
      cases.add(Arguments.of("1.2.840.10008.1.2", bits, List.of("dcmconv", "+ti")));
      cases.add(Arguments.of("1.2.840.10008.1.2.1", bits, List.of("dcmconv", "+te")));
      cases.add(Arguments.of("1.2.840.10008.1.2.2", bits, List.of("dcmconv", "+tb")));
      cases.add(Arguments.of("1.2.840.10008.1.2.1.99", bits, List.of("dcmconv", "+td")));
      cases.add(Arguments.of("1.2.840.10008.1.2.5", bits, List.of("dcmcrle")));
      cases.add(Arguments.of("1.2.840.10008.1.2.4.70", bits, List.of("dcmcjpeg", "+e1")));
      cases.add(Arguments.of("1.2.840.10008.1.2.4.57", bits, List.of("dcmcjpeg", "+el")));
      cases.add(Arguments.of("1.2.840.10008.1.2.4.90", bits, List.of("gdcmconv", "--j2k")));
      cases.add(Arguments.of("1.2.840.10008.1.2.4.80", bits, List.of("dcmcjpls")));
    }
    return cases.stream();
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("lossless")
  void sameGreyValues(String syntax, Bits bits, List<String> command) throws Exception {
    TomographyBuilder builder =
        new TomographyBuilder()
            .size(3, 37, 21)
            .pixels(bits.allocated(), bits.stored(), bits.signed());
    OctScan scan = converted(builder, syntax, command);
    float[] frame = new float[scan.size().framePixels()];
    for (int f = 0; f < 3; f++) {
      scan.frames().read(f, frame);
      assertFrame(builder, f, frame, 0);
    }
  }

  static Stream<Arguments> lossy() {
    return Stream.of(
        Arguments.of("1.2.840.10008.1.2.4.50", U8, List.of("dcmcjpeg", "+eb", "+q", "98"), 6.0),
        Arguments.of("1.2.840.10008.1.2.4.81", U8, List.of("dcmcjpls", "+en", "+md", "2"), 2.0),
        Arguments.of("1.2.840.10008.1.2.4.81", U12, List.of("dcmcjpls", "+en", "+md", "3"), 3.0),
        Arguments.of(
            "1.2.840.10008.1.2.4.91", U8, List.of("gdcmconv", "--j2k", "--lossy", "-q", "45"), 6.0),
        Arguments.of(
            "1.2.840.10008.1.2.4.91",
            U12,
            List.of("gdcmconv", "--j2k", "--lossy", "-q", "60"),
            300.0));
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("lossy")
  void nearGreyValues(String syntax, Bits bits, List<String> command, double tolerance)
      throws Exception {
    TomographyBuilder builder =
        new TomographyBuilder()
            .smooth()
            .size(3, 37, 21)
            .pixels(bits.allocated(), bits.stored(), bits.signed());
    OctScan scan = converted(builder, syntax, command);
    OctScan outside = decodedOutside(Path.of(scan.document().location()));
    float[] frame = new float[scan.size().framePixels()];
    float[] expected = new float[scan.size().framePixels()];
    for (int f = 0; f < 3; f++) {
      scan.frames().read(f, frame);
      assertFrame(builder, f, frame, tolerance);
      outside.frames().read(f, expected);
      assertArrayEquals(expected, frame, 2f);
    }
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("losslessOnce")
  void severalThreadsAtOnce(String syntax, Bits bits, List<String> command) throws Exception {
    TomographyBuilder builder =
        new TomographyBuilder()
            .size(9, 64, 48)
            .pixels(bits.allocated(), bits.stored(), bits.signed());
    OctScan scan = converted(builder, syntax, command);
    ExecutorService pool = Executors.newFixedThreadPool(4);
    try {
      List<Callable<float[]>> calls = new ArrayList<>();
      for (int i = 0; i < 36; i++) {
        int f = i % 9;
        calls.add(
            () -> {
              float[] frame = new float[scan.size().framePixels()];
              scan.frames().read(f, frame);
              return frame;
            });
      }
      List<Future<float[]>> results = pool.invokeAll(calls);
      for (int i = 0; i < results.size(); i++) {
        assertFrame(builder, i % 9, results.get(i).get(), 0);
      }
    } finally {
      pool.shutdownNow();
    }
  }

  private OctScan decodedOutside(Path compressed) throws Exception {
    Path outside = Files.createDirectory(folder.resolve("outside"));
    OutsideTool.run(
        List.of("gdcmconv", "--raw", compressed.toString(), outside.resolve("raw").toString()));
    return DicomFolder.reader().read(List.of(outside)).scans().get(0);
  }

  private OctScan converted(TomographyBuilder builder, String syntax, List<String> command)
      throws Exception {
    Path original = builder.write(folder.resolve("original"));
    Path inside = Files.createDirectory(folder.resolve("inside"));
    List<String> line = new ArrayList<>(command);
    line.add(original.toString());
    line.add(inside.resolve("converted").toString());
    OutsideTool.run(line);
    new LocalizerBuilder().write(inside.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(inside));
    assertTrue(contents.findings().stream().noneMatch(f -> true), contents.findings().toString());
    assertEquals(syntax, contents.descriptions().get(0).transferSyntaxUid());
    return contents.scans().get(0);
  }

  private static void assertFrame(
      TomographyBuilder builder, int frame, float[] grey, double tolerance) {
    for (int d = 0; d < builder.depths(); d++) {
      for (int a = 0; a < builder.ascans(); a++) {
        assertEquals(
            builder.stored(frame, a, d),
            grey[d * builder.ascans() + a],
            tolerance,
            "frame " + frame + ", A-scan " + a + ", depth " + d);
      }
    }
  }
}

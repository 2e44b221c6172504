package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.fixture.WrappedStreams;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Pixel data pass bit for bit, in every transfer syntax; the encoders are dcmtk's and gdcm's. */
class CompressedCopyTest {
  private static final String NATIVE = "1.2.840.10008.1.2.1";
  private static final byte[] DELIMITER = {(byte) 0xfe, (byte) 0xff, (byte) 0xdd, (byte) 0xe0};

  @TempDir Path folder;

  static Stream<Arguments> encoders() {
    return Stream.of(
        Arguments.of(16, NATIVE, List.of("dcmconv", "+ti")),
        Arguments.of(16, NATIVE, List.of("dcmconv", "+te")),
        Arguments.of(16, NATIVE, List.of("dcmconv", "+tb")),
        Arguments.of(8, NATIVE, List.of("dcmconv", "+tb")),
        Arguments.of(16, NATIVE, List.of("dcmconv", "+td")),
        Arguments.of(16, "1.2.840.10008.1.2.5", List.of("dcmcrle")),
        Arguments.of(8, "1.2.840.10008.1.2.4.50", List.of("dcmcjpeg", "+eb")),
        Arguments.of(16, "1.2.840.10008.1.2.4.57", List.of("dcmcjpeg", "+el")),
        Arguments.of(16, "1.2.840.10008.1.2.4.70", List.of("dcmcjpeg", "+e1")),
        Arguments.of(16, "1.2.840.10008.1.2.4.80", List.of("dcmcjpls")),
        Arguments.of(16, "1.2.840.10008.1.2.4.81", List.of("dcmcjpls", "+en")),
        Arguments.of(16, "1.2.840.10008.1.2.4.90", List.of("gdcmconv", "--j2k")),
        Arguments.of(
            8, "1.2.840.10008.1.2.4.91", List.of("gdcmconv", "--j2k", "--lossy", "-q", "45")));
  }

  @ParameterizedTest(name = "{0} bits, {2}")
  @MethodSource("encoders")
  void pixelDataStayAsTheyAre(int bits, String syntax, List<String> encoder) throws Exception {
    TomographyBuilder made = new TomographyBuilder().smooth().size(3, 37, 21);
    Path source = encoded(made.pixels(bits, bits == 8 ? 8 : 12, false), encoder);

    Path copy = copied(source);

    ParsedObject object = ParsedObject.of(copy, new PixelMedObjectReader());
    assertEquals(syntax, object.syntax().uid());
    byte[] expected =
        syntax.equals(NATIVE)
            ? made.pixelBytes()
            : pixels(ParsedObject.of(source, new PixelMedObjectReader()));
    assertArrayEquals(expected, pixels(object));
    OutsideTool.run(List.of("dcmdump", "-q", "+E", copy.toString()));
  }

  /** No DICOM program at hand encodes these; the frames are OpenJPH's. */
  @ParameterizedTest
  @ValueSource(strings = {"201", "202", "203"})
  void highThroughputStaysAsItIs(String last) throws Exception {
    TomographyBuilder made = new TomographyBuilder().size(2, 37, 21).pixels(16, 12, false);
    String syntax = "1.2.840.10008.1.2.4." + last;
    Path in = Files.createDirectories(folder.resolve("in"));
    Path source =
        WrappedStreams.write(
            made,
            WrappedStreams.highThroughput(made, 12, folder, "-reversible", "true"),
            syntax,
            in.resolve("encoded"));

    ParsedObject object = ParsedObject.of(copied(source), new PixelMedObjectReader());

    assertEquals(syntax, object.syntax().uid());
    assertArrayEquals(pixels(ParsedObject.of(source, new PixelMedObjectReader())), pixels(object));
  }

  /** A comment of JPEG, right behind the first marker (ITU-T T.81, B.2.4.5). */
  @Test
  void aCommentThatNamesThePatientIsRefused() throws Exception {
    TomographyBuilder made =
        new TomographyBuilder()
            .size(1, 37, 21)
            .pixels(16, 12, false)
            .with(b -> b.text(0x00100010, Vr.PN, "Pipit^Bo"));
    Path source = encoded(made, List.of("dcmcjpeg", "+e1"));
    byte[] bytes = Files.readAllBytes(source);
    int start = new String(bytes, StandardCharsets.ISO_8859_1).indexOf("\u00ff\u00d8\u00ff");
    assertTrue(start > 0);
    assertEquals(1, Outcome.written(run(source)), "without the comment");

    Files.write(source, withComment(bytes, start, "of Pipit"));
    List<Outcome> outcomes = run(source);

    assertEquals(0, Outcome.written(outcomes));
    assertEquals("the pixel data hold an identifier as text", outcomes.get(0).refused());
  }

  /** ITU-T T.81, B.1.1.2: any marker may have fill bytes of all ones in front. */
  @Test
  void commentsOfUnknownContentAreRefused() throws Exception {
    Path source =
        encoded(
            new TomographyBuilder().size(1, 37, 21).pixels(16, 12, false),
            List.of("dcmcjpeg", "+e1"));
    byte[] bytes = Files.readAllBytes(source);
    int start = new String(bytes, StandardCharsets.ISO_8859_1).indexOf("\u00ff\u00d8\u00ff");
    String unknown = "a compressed frame has a comment or application segment of unknown content";

    Files.write(source, withComment(bytes, start, "a note"));
    assertEquals(unknown, run(source).get(0).refused());
    byte[] filled = withComment(bytes, start, "\u00ff\u00ff\u00fe\0\u0009a notes");
    byte[] behind = Arrays.copyOf(filled, filled.length);
    behind[start + 2] = (byte) 0xff;
    behind[start + 3] = (byte) 0xff;
    behind[start + 4] = (byte) 0xff;
    behind[start + 5] = (byte) 0xff;
    Files.write(source, behind);
    assertEquals(unknown, run(source).get(0).refused());
    Files.write(source, withComment(bytes, start, "  "));
    assertEquals(1, Outcome.written(run(source)), "a comment of blanks");
  }

  /** A marker segment FF64 behind the first tile-part's SOT (ITU-T T.800, A.4.2 and A.9.2). */
  @Test
  void commentsOfTilePartsAreFound() throws Exception {
    Path source =
        encoded(
            new TomographyBuilder().smooth().size(1, 37, 21).pixels(16, 12, false),
            List.of("gdcmconv", "--j2k"));
    String text = Files.readString(source, StandardCharsets.ISO_8859_1);
    int data = text.indexOf("\u00ff\u0093", text.indexOf("\u00ff\u0090\0\n"));
    assertTrue(data > 0);
    int next = text.indexOf("\u00ffd", 1);
    assertTrue(next > 0 && next < data, "the comment of the encoder itself");
    assertEquals(1, Outcome.written(run(source)));

    int segment = 2 + 8;
    int stream = text.indexOf("\u00ffO\u00ffQ");
    byte[] bytes =
        (text.substring(0, data) + "\u00ffd\0\u0008\0\u0001note" + text.substring(data))
            .getBytes(StandardCharsets.ISO_8859_1);
    for (int i = 0, more = segment; i < 4; i++) {
      more += bytes[stream - 4 + i] & 0xff;
      bytes[stream - 4 + i] = (byte) more;
      more >>>= 8;
    }
    Files.write(source, bytes);

    assertEquals(
        "a compressed frame has a comment or application segment of unknown content",
        run(source).get(0).refused());
  }

  @Test
  void cutFragmentsAreRefusedAndLeaveNothing() throws Exception {
    Path source = encoded(new TomographyBuilder().size(2, 37, 21), List.of("dcmcrle"));
    byte[] bytes = Files.readAllBytes(source);
    Files.write(source, Arrays.copyOf(bytes, bytes.length - 60));

    List<Outcome> outcomes = run(source);

    assertTrue(outcomes.get(0).refused().startsWith("the fragments of the pixel data"));
    try (Stream<Path> left = Files.walk(folder.resolve("out"))) {
      assertTrue(left.noneMatch(file -> file.toString().matches(".*([.]dcm|[.]part)")));
    }
  }

  /** Puts a comment into the first frame and makes its item longer. */
  private static byte[] withComment(byte[] file, int start, String text) {
    byte[] words = text.getBytes(StandardCharsets.ISO_8859_1);
    byte[] segment = new byte[4 + words.length];
    segment[0] = (byte) 0xff;
    segment[1] = (byte) 0xfe;
    segment[3] = (byte) (2 + words.length);
    System.arraycopy(words, 0, segment, 4, words.length);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(file, 0, start - 4);
    int length = segment.length;
    for (int i = 0; i < 4; i++) {
      length += (file[start - 4 + i] & 0xff) << (8 * i);
    }
    for (int i = 0; i < 4; i++) {
      out.write(length >>> (8 * i));
    }
    out.write(file, start, 2);
    out.writeBytes(segment);
    out.write(file, start + 2, file.length - start - 2);
    return out.toByteArray();
  }

  private Path encoded(TomographyBuilder made, List<String> encoder) throws Exception {
    Path original = made.write(folder.resolve("original"));
    Path in = Files.createDirectories(folder.resolve("in"));
    List<String> line = new ArrayList<>(encoder);
    line.add(original.toString());
    line.add(in.resolve("encoded").toString());
    OutsideTool.run(line);
    return in.resolve("encoded");
  }

  private Path copied(Path source) throws Exception {
    Outcome one = run(source).get(0);
    return folder.resolve("out").resolve(one.written().orElseThrow());
  }

  private List<Outcome> run(Path source) throws Exception {
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    Pseudonyms names = new Pseudonyms(key);
    OutFolder out = OutFolder.open(folder.resolve("out"), new Options(true, false, false), names);
    return Deidentifiers.of(names).run(List.of(source), out);
  }

  /** Returns the value of the pixel data; of fragments everything up to the last delimiter. */
  private static byte[] pixels(ParsedObject object) throws Exception {
    PixelLocation where = object.pixels().orElseThrow();
    if (!where.inFragments()) {
      return object.source().read(where.offset(), (int) where.length());
    }
    byte[] rest =
        object.source().read(where.offset(), (int) (object.source().size() - where.offset()));
    for (int at = rest.length - 8; at >= 0; at--) {
      if (Arrays.equals(rest, at, at + 4, DELIMITER, 0, 4)) {
        return Arrays.copyOf(rest, at + 8);
      }
    }
    throw new AssertionError("no delimiter");
  }
}

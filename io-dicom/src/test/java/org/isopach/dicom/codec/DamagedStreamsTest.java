package org.isopach.dicom.codec;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.fixture.WrappedStreams;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Cut and changed streams cost a frame at most; the encoders are DCMTK's and OpenJPH's. */
class DamagedStreamsTest {
  @TempDir Path folder;

  private TomographyBuilder made() {
    return new TomographyBuilder().size(1, 37, 21).pixels(16, 12, false);
  }

  private byte[] jpegLs() throws IOException {
    Path original = made().write(folder.resolve("original"));
    Path encoded = folder.resolve("encoded");
    OutsideTool.run(List.of("dcmcjpls", original.toString(), encoded.toString()));
    byte[] file = Files.readAllBytes(encoded);
    int start = new String(file, StandardCharsets.ISO_8859_1).indexOf("\u00ff\u00d8\u00ff");
    return Arrays.copyOfRange(file, start, file.length - 8);
  }

  private byte[] wavelet() throws IOException {
    return WrappedStreams.highThroughput(made(), 12, folder, "-reversible", "true").get(0);
  }

  @Test
  void damagedJpegLs() throws IOException {
    damaged(NativeCodec.CHARLS, jpegLs(), 150);
  }

  @Test
  void damagedHighThroughput() throws IOException {
    damaged(NativeCodec.OPENJPEG, wavelet(), 300);
  }

  private void damaged(NativeCodec codec, byte[] good, int seeds) throws IOException {
    DecoderPool pool = new DecoderPool(codec, codec.library(), true);
    StreamHeader header = StreamHeader.of(codec, good);
    byte[] pixels = pool.decode(good, header);
    int refused = 0;
    int decoded = 0;
    for (int seed = 0; seed < seeds; seed++) {
      byte[] bad = changed(good, new Random(seed));
      try {
        StreamHeader said = StreamHeader.of(codec, bad);
        if (said.equals(header)) {
          assertEquals(pixels.length, pool.decode(bad, said).length);
          decoded++;
        }
      } catch (IOException e) {
        refused++;
      }
    }
    assertTrue(refused > seeds / 2, refused + " refused");
    assertTrue(decoded < seeds / 2, decoded + " decoded");
    assertArrayEquals(pixels, pool.decode(good, header), "a good frame afterwards");
  }

  /** Returns a stream cut somewhere, or with some bytes replaced by others or by ones. */
  private static byte[] changed(byte[] good, Random random) {
    int kind = random.nextInt(4);
    if (kind == 0) {
      return Arrays.copyOf(good, random.nextInt(good.length));
    }
    byte[] bad = good.clone();
    int count = 1 + random.nextInt(kind == 1 ? 1 : 20);
    for (int i = 0; i < count; i++) {
      bad[random.nextInt(bad.length)] = (byte) (kind == 3 ? 0xff : random.nextInt(256));
    }
    return bad;
  }

  @Test
  void headersAreReadByUs() throws IOException {
    StreamHeader expected = new StreamHeader(37, 21, 1, 12, false);
    assertEquals(expected, StreamHeader.of(NativeCodec.OPENJPEG, wavelet()));
    StreamHeader found = StreamHeader.of(NativeCodec.CHARLS, jpegLs());
    assertEquals(37, found.width());
    assertEquals(21, found.height());
    for (NativeCodec codec : NativeCodec.values()) {
      byte[] good = codec == NativeCodec.CHARLS ? jpegLs() : wavelet();
      for (int length = 0; length < 12; length++) {
        byte[] cut = Arrays.copyOf(good, length);
        assertThrows(IOException.class, () -> StreamHeader.of(codec, cut));
      }
    }
  }

  @Test
  void aMissingLibraryIsNoticedAndItsPackageNamed() {
    assertFalse(new DecoderPool(NativeCodec.CHARLS, "libisopachnowhere.so.9", false).present());
    assertTrue(DecoderPool.of(NativeCodec.CHARLS).present());
    assertTrue(NativeCodec.CHARLS.advice().contains("dcmdjpls IN OUT"));
    assertTrue(NativeCodec.OPENJPEG.advice().contains("libopenjp2-7"));
  }

  /** What the message tells the user to do. */
  @Test
  void theCommandInTheMessageTranscodes() throws IOException {
    Path original = made().write(folder.resolve("original"));
    Path encoded = folder.resolve("encoded");
    OutsideTool.run(List.of("dcmcjpls", original.toString(), encoded.toString()));
    Path plain = folder.resolve("plain");

    OutsideTool.run(List.of("dcmdjpls", encoded.toString(), plain.toString()));

    String bytes = Files.readString(plain, StandardCharsets.ISO_8859_1);
    String pixels = new String(made().pixelBytes(), StandardCharsets.ISO_8859_1);
    assertTrue(bytes.contains(pixels));
  }
}

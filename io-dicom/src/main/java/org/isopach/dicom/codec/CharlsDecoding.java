package org.isopach.dicom.codec;

import com.sun.jna.Library;
import com.sun.jna.Memory;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Pointer;
import java.io.IOException;
import java.nio.ByteOrder;

/** JPEG-LS by CharLS 2 (its C interface, {@code charls_jpegls_decoder.h}). */
final class CharlsDecoding implements WorkerMain.Decoding {
  private final Charls charls;

  /** The functions used. An int that is returned is an error code, 0 for none. */
  interface Charls extends Library {
    Pointer charls_jpegls_decoder_create();

    void charls_jpegls_decoder_destroy(Pointer decoder);

    int charls_jpegls_decoder_set_source_buffer(Pointer decoder, Pointer bytes, NativeLong size);

    int charls_jpegls_decoder_read_header(Pointer decoder);

    int charls_jpegls_decoder_decode_to_buffer(
        Pointer decoder, Pointer bytes, NativeLong size, int stride);
  }

  private CharlsDecoding(Charls charls) {
    this.charls = charls;
  }

  /**
   * Loads the library.
   *
   * @throws UnsatisfiedLinkError when it is not there
   */
  static CharlsDecoding load(String library) {
    return new CharlsDecoding(Native.load(library, Charls.class));
  }

  @Override
  public byte[] decode(byte[] frame, StreamHeader header) throws IOException {
    int pixels = Math.multiplyExact(header.width(), header.height());
    int cell = header.bits() > 8 ? 2 : 1;
    Pointer decoder = charls.charls_jpegls_decoder_create();
    try (Memory in = new Memory(frame.length);
        Memory out = new Memory((long) pixels * cell)) {
      in.write(0, frame, 0, frame.length);
      check(
          charls.charls_jpegls_decoder_set_source_buffer(
              decoder, in, new NativeLong(frame.length)));
      check(charls.charls_jpegls_decoder_read_header(decoder));
      check(
          charls.charls_jpegls_decoder_decode_to_buffer(
              decoder, out, new NativeLong(out.size()), 0));
      return samples(out.getByteArray(0, pixels * cell), cell);
    } finally {
      charls.charls_jpegls_decoder_destroy(decoder);
    }
  }

  /** Widens cells of one byte, or turns round those of two, which are the machine's own. */
  private static byte[] samples(byte[] cells, int cell) {
    boolean little = ByteOrder.nativeOrder() == ByteOrder.LITTLE_ENDIAN;
    byte[] samples = new byte[2 * (cells.length / cell)];
    for (int i = 0; i < samples.length; i += 2) {
      if (cell == 1) {
        samples[i + 1] = cells[i / 2];
      } else {
        samples[i] = cells[little ? i + 1 : i];
        samples[i + 1] = cells[little ? i : i + 1];
      }
    }
    return samples;
  }

  private static void check(int error) throws IOException {
    if (error != 0) {
      throw new IOException("the JPEG-LS decoder refuses the frame, error " + error);
    }
  }
}

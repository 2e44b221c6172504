package org.isopach.dicom.codec;

import com.sun.jna.Library;
import com.sun.jna.Memory;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Pointer;
import java.io.IOException;

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
      byte[] samples = new byte[2 * pixels];
      for (int i = 0; i < pixels; i++) {
        int sample = cell == 1 ? out.getByte(i) & 0xff : out.getShort(2L * i);
        samples[2 * i] = (byte) (sample >> 8);
        samples[2 * i + 1] = (byte) sample;
      }
      return samples;
    } finally {
      charls.charls_jpegls_decoder_destroy(decoder);
    }
  }

  private static void check(int error) throws IOException {
    if (error != 0) {
      throw new IOException("the JPEG-LS decoder refuses the frame, error " + error);
    }
  }
}

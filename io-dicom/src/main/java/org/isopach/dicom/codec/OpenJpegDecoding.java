package org.isopach.dicom.codec;

import com.sun.jna.Callback;
import com.sun.jna.Library;
import com.sun.jna.Memory;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import com.sun.jna.Pointer;
import com.sun.jna.ptr.PointerByReference;
import java.io.IOException;
import java.lang.ref.Reference;

/**
 * High-throughput JPEG 2000 by OpenJPEG 2.5 (its C interface, {@code openjpeg.h}); places of fields
 * are those of 64-bit systems.
 */
final class OpenJpegDecoding implements WorkerMain.Decoding {
  private static final int CODESTREAM = 0;
  private static final int PARAMETERS_ROOM = 1 << 14;
  private static final int IMAGE_COMPONENTS = 24;
  private static final int COMPONENT_WIDTH = 8;
  private static final int COMPONENT_HEIGHT = 12;
  private static final int COMPONENT_DATA = 48;

  private final OpenJpeg openJpeg;

  /** The functions used. An int that is returned is 0 on failure. */
  interface OpenJpeg extends Library {
    String opj_version();

    Pointer opj_create_decompress(int format);

    void opj_set_default_decoder_parameters(Pointer parameters);

    int opj_setup_decoder(Pointer codec, Pointer parameters);

    int opj_decoder_set_strict_mode(Pointer codec, int strict);

    Pointer opj_stream_default_create(int forReading);

    void opj_stream_set_read_function(Pointer stream, Read read);

    void opj_stream_set_skip_function(Pointer stream, Skip skip);

    void opj_stream_set_seek_function(Pointer stream, Seek seek);

    void opj_stream_set_user_data(Pointer stream, Pointer data, Pointer free);

    void opj_stream_set_user_data_length(Pointer stream, long length);

    int opj_read_header(Pointer stream, Pointer codec, PointerByReference image);

    int opj_decode(Pointer codec, Pointer stream, Pointer image);

    void opj_image_destroy(Pointer image);

    void opj_destroy_codec(Pointer codec);

    void opj_stream_destroy(Pointer stream);
  }

  /** Fills a buffer; -1 at the end. */
  interface Read extends Callback {
    NativeLong invoke(Pointer buffer, NativeLong size, Pointer data);
  }

  /** Goes on by some bytes; -1 when that is not possible. */
  interface Skip extends Callback {
    long invoke(long bytes, Pointer data);
  }

  /** Goes to a place; 0 when that is not possible. */
  interface Seek extends Callback {
    int invoke(long place, Pointer data);
  }

  private OpenJpegDecoding(OpenJpeg openJpeg) {
    this.openJpeg = openJpeg;
  }

  /**
   * Loads the library.
   *
   * @throws UnsatisfiedLinkError when it is not there, or older than 2.5, which knows no high
   *     throughput
   */
  static OpenJpegDecoding load(String library) {
    OpenJpeg loaded = Native.load(library, OpenJpeg.class);
    String[] version = loaded.opj_version().split("[.]", -1);
    int number = Integer.parseInt(version[0]) * 100 + Integer.parseInt(version[1]);
    if (number < 205) {
      throw new UnsatisfiedLinkError("OpenJPEG " + loaded.opj_version() + " is too old");
    }
    return new OpenJpegDecoding(loaded);
  }

  @Override
  public byte[] decode(byte[] frame, StreamHeader header) throws IOException {
    Source source = new Source(frame);
    Pointer codec = openJpeg.opj_create_decompress(CODESTREAM);
    Pointer stream = openJpeg.opj_stream_default_create(1);
    PointerByReference image = new PointerByReference();
    try (Memory parameters = new Memory(PARAMETERS_ROOM)) {
      source.giveTo(openJpeg, stream);
      parameters.clear();
      openJpeg.opj_set_default_decoder_parameters(parameters);
      check(openJpeg.opj_setup_decoder(codec, parameters));
      check(openJpeg.opj_decoder_set_strict_mode(codec, 1));
      check(openJpeg.opj_read_header(stream, codec, image));
      check(openJpeg.opj_decode(codec, stream, image.getValue()));
      return samples(image.getValue().getPointer(IMAGE_COMPONENTS), header);
    } finally {
      if (image.getValue() != null) {
        openJpeg.opj_image_destroy(image.getValue());
      }
      openJpeg.opj_stream_destroy(stream);
      openJpeg.opj_destroy_codec(codec);
      Reference.reachabilityFence(source);
    }
  }

  /** Copies the samples of the first component, which are ints. */
  private static byte[] samples(Pointer component, StreamHeader header) throws IOException {
    Pointer data = component.getPointer(COMPONENT_DATA);
    if (data == null
        || component.getInt(COMPONENT_WIDTH) != header.width()
        || component.getInt(COMPONENT_HEIGHT) != header.height()) {
      throw new IOException("the JPEG 2000 decoder gave a picture of another size");
    }
    int[] line = new int[header.width()];
    byte[] samples = new byte[2 * header.width() * header.height()];
    int to = 0;
    for (int row = 0; row < header.height(); row++) {
      data.read(4L * row * header.width(), line, 0, line.length);
      for (int sample : line) {
        samples[to++] = (byte) (sample >> 8);
        samples[to++] = (byte) sample;
      }
    }
    return samples;
  }

  private static void check(int done) throws IOException {
    if (done == 0) {
      throw new IOException("the JPEG 2000 decoder refuses the frame");
    }
  }

  /** A frame as a stream; holds on to its callbacks for as long as it lives. */
  private static final class Source {
    private final byte[] frame;
    private final Read read = this::read;
    private final Skip skip = this::skip;
    private final Seek seek = this::seek;
    private int at;

    Source(byte[] frame) {
      this.frame = frame;
    }

    void giveTo(OpenJpeg openJpeg, Pointer stream) {
      openJpeg.opj_stream_set_read_function(stream, read);
      openJpeg.opj_stream_set_skip_function(stream, skip);
      openJpeg.opj_stream_set_seek_function(stream, seek);
      openJpeg.opj_stream_set_user_data(stream, null, null);
      openJpeg.opj_stream_set_user_data_length(stream, frame.length);
    }

    private NativeLong read(Pointer buffer, NativeLong size, Pointer data) {
      int count = (int) Math.min(size.longValue(), frame.length - at);
      if (count <= 0) {
        return new NativeLong(-1);
      }
      buffer.write(0, frame, at, count);
      at += count;
      return new NativeLong(count);
    }

    private long skip(long bytes, Pointer data) {
      if (bytes < 0) {
        return -1;
      }
      long count = Math.min(bytes, frame.length - at);
      at += (int) count;
      return count;
    }

    private int seek(long place, Pointer data) {
      if (place < 0 || place > frame.length) {
        return 0;
      }
      at = (int) place;
      return 1;
    }
  }
}

package org.isopach.dicom.pixel;

import java.lang.ref.SoftReference;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;

/**
 * Remembers the decoded frames of the object that was read last, so that compressed frames are not
 * decoded again for a picture or a projection of a scan just measured. Safe for several threads.
 *
 * <p>There is room for one object, and none for a large one; whatever else needs the memory gets
 * it, and the frames are then decoded again.
 */
public final class FrameMemory {
  /** The largest object that is remembered: 128 frames of 512 x 496 pixels of 16 bits and some. */
  static final long MOST_BYTES = 64L << 20;

  private final Map<Integer, SoftReference<byte[]>> frames = new HashMap<>();
  private Object owner = this;

  /**
   * Returns the same frames, remembered.
   *
   * @param source decodes the frames of an object; its values are whole and within the format
   * @param format how values are stored
   * @param count how many frames there are
   */
  public FrameSource remembering(FrameSource source, PixelFormat format, int count) {
    return count * format.frameBytes() > MOST_BYTES
        ? source
        : new Remembered(source, new Packing(format));
  }

  private synchronized Optional<byte[]> known(Object of, int frame) {
    return of.equals(owner)
        ? Optional.ofNullable(frames.get(frame)).map(SoftReference::get)
        : Optional.empty();
  }

  private synchronized void keep(Object of, int frame, byte[] packed) {
    if (!of.equals(owner)) {
      frames.clear();
      owner = of;
    }
    frames.put(frame, new SoftReference<>(packed));
  }

  /** The frames of one object. */
  private final class Remembered implements FrameSource {
    private final FrameSource source;
    private final Packing packing;

    Remembered(FrameSource source, Packing packing) {
      this.source = source;
      this.packing = packing;
    }

    @Override
    public void read(int frame, float[] into) throws FrameReadException {
      Optional<byte[]> known = known(this, frame);
      if (known.isPresent()) {
        packing.unpack(known.get(), into);
        return;
      }
      source.read(frame, into);
      keep(this, frame, packing.pack(into));
    }
  }

  /** Whole values as the bytes they were stored in, above the least that the format has. */
  private static final class Packing {
    private final int pixels;
    private final boolean wide;
    private final int low;

    Packing(PixelFormat format) {
      pixels = format.framePixels();
      wide = format.bitsAllocated() > 8;
      low = (int) format.range().low();
    }

    byte[] pack(float[] values) {
      byte[] packed = new byte[wide ? 2 * pixels : pixels];
      for (int i = 0; i < pixels; i++) {
        int above = (int) values[i] - low;
        if (wide) {
          packed[2 * i] = (byte) (above >> 8);
          packed[2 * i + 1] = (byte) above;
        } else {
          packed[i] = (byte) above;
        }
      }
      return packed;
    }

    void unpack(byte[] packed, float[] into) {
      for (int i = 0; i < pixels; i++) {
        int above =
            wide ? ((packed[2 * i] & 0xff) << 8) | (packed[2 * i + 1] & 0xff) : packed[i] & 0xff;
        into[i] = above + low;
      }
    }
  }
}

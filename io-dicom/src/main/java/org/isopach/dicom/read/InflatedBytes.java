package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.lang.ref.SoftReference;
import java.util.Arrays;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.isopach.analysis.finding.FindingKind;

/**
 * The data set of a deflated file (DICOM PS3.5, annex A.5), unpacked in memory.
 *
 * <p>The unpacked bytes are held only as long as memory allows and unpacked again when needed; no
 * temporary file with patient data is made. At most 512 MiB are unpacked.
 */
final class InflatedBytes implements ByteSource {
  private static final long LARGEST = 512L << 20;
  private static final int CHUNK = 64 * 1024;

  private final ByteSource packed;
  private final long start;
  private final long size;
  private SoftReference<byte[]> unpacked;

  private InflatedBytes(ByteSource packed, long start, byte[] unpacked) {
    this.packed = packed;
    this.start = start;
    this.size = unpacked.length;
    this.unpacked = new SoftReference<>(unpacked);
  }

  /**
   * Unpacks a file from a position to its end.
   *
   * @throws ObjectDefect TRUNCATED when the packed stream is damaged or ends early,
   *     UNSUPPORTED_ENCODING when it unpacks to more than is allowed
   */
  static InflatedBytes of(ByteSource packed, long start) throws IOException, ObjectDefect {
    return new InflatedBytes(packed, start, inflate(packed, start));
  }

  @Override
  public long size() {
    return size;
  }

  @Override
  public void read(long position, byte[] into, int offset, int length) throws IOException {
    if (position < 0 || position + length > size) {
      throw new EOFException("the unpacked data set ends at byte " + size);
    }
    System.arraycopy(bytes(), (int) position, into, offset, length);
  }

  private synchronized byte[] bytes() throws IOException {
    byte[] held = unpacked.get();
    if (held == null) {
      try {
        held = inflate(packed, start);
      } catch (ObjectDefect e) {
        throw new IOException(e.detail(), e);
      }
      if (held.length != size) {
        throw new IOException("the file has changed since it was first read");
      }
      unpacked = new SoftReference<>(held);
    }
    return held;
  }

  private static byte[] inflate(ByteSource packed, long start) throws IOException, ObjectDefect {
    Inflater inflater = new Inflater(true);
    try {
      byte[] out = new byte[CHUNK];
      int filled = 0;
      long at = start;
      while (!inflater.finished()) {
        if (inflater.needsInput()) {
          int n = (int) Math.min(CHUNK, packed.size() - at);
          if (n <= 0) {
            throw new ObjectDefect(FindingKind.TRUNCATED, "the deflated data set ends early");
          }
          inflater.setInput(packed.read(at, n));
          at += n;
        }
        if (filled == out.length) {
          out = Arrays.copyOf(out, grown(filled));
        }
        filled += inflater.inflate(out, filled, out.length - filled);
      }
      return Arrays.copyOf(out, filled);
    } catch (DataFormatException e) {
      throw new ObjectDefect(FindingKind.TRUNCATED, "the deflated data set is damaged", e);
    } finally {
      inflater.end();
    }
  }

  private static int grown(int length) throws ObjectDefect {
    if (length >= LARGEST) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "the deflated data set unpacks to more than " + (LARGEST >> 20) + " MiB");
    }
    return (int) Math.min(LARGEST, 2L * length);
  }
}

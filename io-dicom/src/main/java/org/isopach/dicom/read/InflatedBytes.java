package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.lang.ref.SoftReference;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import org.isopach.analysis.finding.FindingKind;

/**
 * The data set of a deflated file (DICOM PS3.5, annex A.5), unpacked in memory.
 *
 * <p>The unpacked bytes are held only as long as memory allows and unpacked again when needed; no
 * temporary file with patient data is made. At most 512 MiB, and at most a third of the memory Java
 * may use, are unpacked.
 */
final class InflatedBytes implements ByteSource {
  private static final long LARGEST = Math.min(512L << 20, Runtime.getRuntime().maxMemory() / 3);
  private static final int BLOCK = 1 << 20;
  private static final int CHUNK = 64 * 1024;

  private final ByteSource packed;
  private final long start;
  private final long size;
  private SoftReference<Unpacked> unpacked;

  /** Blocks of {@link #BLOCK} bytes, the last one filled in part. */
  private static final class Unpacked {
    private final List<byte[]> blocks = new ArrayList<>();
    private long size;

    void copy(long position, byte[] into, int offset, int length) throws EOFException {
      if (position < 0 || position + length > size) {
        throw new EOFException("the unpacked data set ends at byte " + size);
      }
      int done = 0;
      while (done < length) {
        long at = position + done;
        int from = (int) (at % BLOCK);
        int n = Math.min(length - done, BLOCK - from);
        System.arraycopy(blocks.get((int) (at / BLOCK)), from, into, offset + done, n);
        done += n;
      }
    }
  }

  private InflatedBytes(ByteSource packed, long start, Unpacked unpacked) {
    this.packed = packed;
    this.start = start;
    this.size = unpacked.size;
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
    held().copy(position, into, offset, length);
  }

  @Override
  public HeldBytes hold() throws IOException {
    return new Held(held());
  }

  private synchronized Unpacked held() throws IOException {
    Unpacked held = unpacked.get();
    if (held == null) {
      try {
        held = inflate(packed, start);
      } catch (ObjectDefect e) {
        throw new IOException(e.detail(), e);
      }
      if (held.size != size) {
        throw new IOException("the file has changed since it was first read");
      }
      unpacked = new SoftReference<>(held);
    }
    return held;
  }

  private static Unpacked inflate(ByteSource packed, long start) throws IOException, ObjectDefect {
    Inflater inflater = new Inflater(true);
    Unpacked out = new Unpacked();
    long at = start;
    try {
      while (!inflater.finished()) {
        boolean allGiven = at >= packed.size();
        if (inflater.needsInput() && !allGiven) {
          int n = (int) Math.min(CHUNK, packed.size() - at);
          inflater.setInput(packed.read(at, n));
          at += n;
        }
        int from = (int) (out.size % BLOCK);
        byte[] block = from == 0 ? fresh(out) : out.blocks.get(out.blocks.size() - 1);
        int more = inflater.inflate(block, from, BLOCK - from);
        // What was given may be taken in while bytes of it have not come out yet.
        if (more == 0 && allGiven && !inflater.finished()) {
          throw new ObjectDefect(FindingKind.TRUNCATED, "the deflated data set ends early");
        }
        out.size += more;
      }
      return out;
    } catch (DataFormatException e) {
      throw new ObjectDefect(FindingKind.TRUNCATED, "the deflated data set is damaged", e);
    } finally {
      inflater.end();
    }
  }

  private static byte[] fresh(Unpacked out) throws ObjectDefect {
    if (out.size >= LARGEST) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "the deflated data set unpacks to more than " + (LARGEST >> 20) + " MiB");
    }
    boolean emptyLast = out.blocks.size() > out.size / BLOCK;
    if (!emptyLast) {
      out.blocks.add(new byte[BLOCK]);
    }
    return out.blocks.get(out.blocks.size() - 1);
  }

  /** Keeps the unpacked bytes from being given up. */
  private final class Held implements HeldBytes {
    private final Unpacked kept;

    Held(Unpacked kept) {
      this.kept = kept;
    }

    @Override
    public long size() {
      return size;
    }

    @Override
    public void read(long position, byte[] into, int offset, int length) throws IOException {
      kept.copy(position, into, offset, length);
    }

    @Override
    public HeldBytes hold() {
      return new Held(kept);
    }

    @Override
    public void close() {
      // Nothing is open; what was kept goes with this object.
    }
  }
}

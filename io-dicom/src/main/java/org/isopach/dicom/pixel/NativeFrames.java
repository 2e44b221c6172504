package org.isopach.dicom.pixel;

import java.io.IOException;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.dicom.read.ByteSource;

/** Reads uncompressed frames by their place in the file. Safe for several threads at once. */
final class NativeFrames implements FrameSource {
  private final String name;
  private final ByteSource source;
  private final long start;
  private final PixelFormat format;
  private final SampleUnpacker unpacker;

  NativeFrames(
      String name, ByteSource source, long start, PixelFormat format, SampleUnpacker unpacker) {
    this.name = name;
    this.source = source;
    this.start = start;
    this.format = format;
    this.unpacker = unpacker;
  }

  @Override
  public void read(int frame, float[] into) throws FrameReadException {
    long first = frame * format.frameBytes();
    int skip = unpacker.swapPairs() ? (int) (first & 1) : 0;
    int length = (int) format.frameBytes() + skip;
    if (unpacker.swapPairs()) {
      length += length & 1;
    }
    try {
      unpacker.unpack(source.read(start + first - skip, length), skip, into);
    } catch (IOException e) {
      throw new FrameReadException(
          name + ": frame " + (frame + 1) + " could not be read: " + e.getMessage(), e);
    }
  }
}

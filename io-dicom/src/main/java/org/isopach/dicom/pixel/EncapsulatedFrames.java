package org.isopach.dicom.pixel;

import java.io.IOException;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.dicom.read.ByteSource;

/** Reads and decodes compressed frames on demand. Safe for several threads at once. */
final class EncapsulatedFrames implements FrameSource {
  private final String name;
  private final ByteSource source;
  private final FragmentIndex index;
  private final FrameDecoder decoder;

  EncapsulatedFrames(String name, ByteSource source, FragmentIndex index, FrameDecoder decoder) {
    this.name = name;
    this.source = source;
    this.index = index;
    this.decoder = decoder;
  }

  @Override
  public void read(int frame, float[] into) throws FrameReadException {
    try {
      decoder.decode(index.frame(source, frame), into);
    } catch (IOException e) {
      throw new FrameReadException(
          name + ": frame " + (frame + 1) + " could not be decoded: " + e.getMessage(), e);
    }
  }
}

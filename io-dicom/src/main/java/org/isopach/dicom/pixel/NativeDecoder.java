package org.isopach.dicom.pixel;

import java.io.IOException;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.codec.DecoderPool;
import org.isopach.dicom.codec.NativeCodec;
import org.isopach.dicom.codec.StreamHeader;
import org.isopach.dicom.read.ObjectDefect;

/** Decodes JPEG-LS and high-throughput JPEG 2000 frames with native libraries. */
final class NativeDecoder implements FrameDecoder {
  private final PixelFormat format;
  private final NativeCodec codec;
  private final SampleUnpacker unpacker;

  private NativeDecoder(PixelFormat format, NativeCodec codec) {
    this.format = format;
    this.codec = codec;
    PixelFormat cells =
        new PixelFormat(
            format.rows(),
            format.columns(),
            Short.SIZE,
            format.bitsStored(),
            format.highBit(),
            format.signed(),
            format.inverted());
    this.unpacker = new SampleUnpacker(cells, true, false);
  }

  /**
   * Returns a decoder.
   *
   * @throws ObjectDefect UNSUPPORTED_ENCODING when the library is not there
   */
  static NativeDecoder of(NativeCodec codec, PixelFormat format) throws ObjectDefect {
    if (!DecoderPool.of(codec).present()) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING, "the decoder is missing; " + codec.advice());
    }
    return new NativeDecoder(format, codec);
  }

  @Override
  public void decode(byte[] compressed, float[] into) throws IOException {
    StreamHeader header = StreamHeader.of(codec, compressed);
    if (!asPromised(header) || header.components() != 1 || header.bits() > format.bitsAllocated()) {
      throw new IOException(
          "the compressed picture has "
              + header.width()
              + " x "
              + header.height()
              + " pixels of "
              + header.components()
              + " samples of "
              + header.bits()
              + " bits");
    }
    unpacker.unpack(DecoderPool.of(codec).decode(compressed, header), 0, into);
  }

  @Override
  public void checkPromise(byte[] compressed) throws ObjectDefect {
    StreamHeader header;
    try {
      header = StreamHeader.of(codec, compressed);
    } catch (IOException e) {
      // A damaged first frame leaves the others readable; reading it will say what is wrong.
      return;
    }
    if (!asPromised(header)) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE,
          "Rows and Columns are "
              + format.rows()
              + " and "
              + format.columns()
              + ", the compressed frame has "
              + header.height()
              + " and "
              + header.width());
    }
  }

  private boolean asPromised(StreamHeader header) {
    return header.width() == format.columns() && header.height() == format.rows();
  }
}

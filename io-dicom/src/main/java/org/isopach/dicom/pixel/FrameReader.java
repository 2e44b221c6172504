package org.isopach.dicom.pixel;

import java.io.IOException;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.dicom.codec.NativeCodec;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.ByteSource;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.PixelLocation;

/** Opens the frames of an object, whatever its transfer syntax, without decoding any. */
public final class FrameReader {
  private static final long LARGEST_FRAME = 1L << 26;

  private FrameReader() {}

  /**
   * Returns a reader of frames, after checking that all of them are there.
   *
   * @param name the object's name for messages
   * @param source the object's bytes; unpacked when deflated
   * @param pixels where the pixel data lie
   * @param syntax how they are encoded
   * @param format how values are stored
   * @param frames how many frames there should be
   * @throws ObjectDefect PIXEL_DATA_SHORT, TRUNCATED or UNSUPPORTED_ENCODING
   * @throws IOException when the file cannot be read
   */
  public static FrameSource open(
      String name,
      ByteSource source,
      PixelLocation pixels,
      TransferSyntax syntax,
      PixelFormat format,
      int frames)
      throws ObjectDefect, IOException {
    if ((long) format.rows() * format.columns() > LARGEST_FRAME) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "a frame of " + format.rows() + " x " + format.columns() + " pixels is too large");
    }
    if (syntax.encapsulated() != pixels.inFragments()) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "the transfer syntax "
              + syntax.uid()
              + " does not fit pixel data "
              + (pixels.inFragments() ? "in fragments" : "of a fixed length"));
    }
    return syntax.encapsulated()
        ? encapsulated(name, source, pixels, syntax, format, frames)
        : uncompressed(name, source, pixels, syntax, format, frames);
  }

  private static FrameSource uncompressed(
      String name,
      ByteSource source,
      PixelLocation pixels,
      TransferSyntax syntax,
      PixelFormat format,
      int frames)
      throws ObjectDefect {
    long needed = frames * format.frameBytes();
    if (pixels.length() < needed) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT,
          frames + " frames need " + needed + " bytes of Pixel Data, it has " + pixels.length());
    }
    boolean big = syntax == TransferSyntax.EXPLICIT_BIG;
    return new NativeFrames(
        name, source, pixels.offset(), format, new SampleUnpacker(format, big, pixels.words()));
  }

  private static FrameSource encapsulated(
      String name,
      ByteSource source,
      PixelLocation pixels,
      TransferSyntax syntax,
      PixelFormat format,
      int frames)
      throws ObjectDefect, IOException {
    if (syntax == TransferSyntax.JPEG_BASELINE && format.bitsStored() > 8) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          "JPEG baseline holds 8 bits, Bits Stored is " + format.bitsStored());
    }
    FragmentIndex index = FragmentIndex.of(source, pixels.offset(), syntax, frames);
    FrameDecoder decoder = decoder(syntax, format);
    decoder.checkPromise(index.frame(source, 0));
    return new EncapsulatedFrames(name, source, index, decoder);
  }

  private static FrameDecoder decoder(TransferSyntax syntax, PixelFormat format)
      throws ObjectDefect {
    return switch (syntax) {
      case RLE -> new RleDecoder(format);
      case JPEG_LS_LOSSLESS, JPEG_LS -> NativeDecoder.of(NativeCodec.CHARLS, format);
      case HTJ2K_LOSSLESS, HTJ2K_LOSSLESS_RPCL, HTJ2K ->
          NativeDecoder.of(NativeCodec.OPENJPEG, format);
      default -> ImageDecoder.of(syntax, format);
    };
  }
}

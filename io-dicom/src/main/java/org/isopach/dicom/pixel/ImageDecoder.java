package org.isopach.dicom.pixel;

import com.github.jaiimageio.jpeg2000.impl.J2KImageReaderSpi;
import com.twelvemonkeys.imageio.plugins.jpeg.JPEGImageReaderSpi;
import java.awt.image.Raster;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import javax.imageio.ImageReader;
import javax.imageio.spi.IIORegistry;
import javax.imageio.spi.ImageReaderSpi;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.ObjectDefect;

/** Decodes JPEG and JPEG 2000 frames through Image I/O, with a reader of its own for each call. */
final class ImageDecoder implements FrameDecoder {
  private final PixelFormat format;
  private final ImageReaderSpi readers;

  private ImageDecoder(PixelFormat format, ImageReaderSpi readers) {
    this.format = format;
    this.readers = readers;
  }

  /** Returns a decoder for JPEG (baseline and lossless) or JPEG 2000. */
  static ImageDecoder of(TransferSyntax syntax, PixelFormat format) {
    boolean wavelet =
        syntax == TransferSyntax.JPEG_2000 || syntax == TransferSyntax.JPEG_2000_LOSSLESS;
    return new ImageDecoder(
        format, wavelet ? provider(new J2KImageReaderSpi()) : provider(new JPEGImageReaderSpi()));
  }

  @Override
  public void decode(byte[] compressed, float[] into) throws IOException {
    ImageReader reader = readers.createReaderInstance();
    try (ImageInputStream in =
        new MemoryCacheImageInputStream(new ByteArrayInputStream(compressed))) {
      reader.setInput(in, true, true);
      copy(reader.readRaster(0, null), into);
    } catch (RuntimeException e) {
      throw new IOException("the decoder failed: " + e, e);
    } finally {
      reader.dispose();
    }
  }

  @Override
  public void checkPromise(byte[] compressed) throws ObjectDefect {
    ImageReader reader = null;
    try (ImageInputStream in =
        new MemoryCacheImageInputStream(new ByteArrayInputStream(compressed))) {
      reader = readers.createReaderInstance();
      reader.setInput(in, true, true);
      int width = reader.getWidth(0);
      int height = reader.getHeight(0);
      if (width != format.columns() || height != format.rows()) {
        throw new ObjectDefect(
            FindingKind.MALFORMED_ATTRIBUTE,
            "Rows and Columns are "
                + format.rows()
                + " and "
                + format.columns()
                + ", the compressed frame has "
                + height
                + " and "
                + width);
      }
    } catch (IOException | RuntimeException e) {
      // A damaged first frame leaves the others readable; reading it will say what is wrong.
      return;
    } finally {
      if (reader != null) {
        reader.dispose();
      }
    }
  }

  private void copy(Raster raster, float[] into) throws IOException {
    if (raster.getNumBands() != 1
        || raster.getWidth() != format.columns()
        || raster.getHeight() != format.rows()) {
      throw new IOException(
          "the compressed picture has "
              + raster.getWidth()
              + " x "
              + raster.getHeight()
              + " pixels of "
              + raster.getNumBands()
              + " samples");
    }
    SampleUnpacker.Meaning meaning = new SampleUnpacker.Meaning(format);
    int columns = format.columns();
    int[] line = new int[columns];
    for (int row = 0; row < format.rows(); row++) {
      raster.getSamples(raster.getMinX(), raster.getMinY() + row, columns, 1, 0, line);
      for (int column = 0; column < columns; column++) {
        into[row * columns + column] = meaning.grey(line[column]);
      }
    }
  }

  /** Returns the registered provider of a class, registering the given one when there is none. */
  private static synchronized ImageReaderSpi provider(ImageReaderSpi fresh) {
    IIORegistry registry = IIORegistry.getDefaultInstance();
    ImageReaderSpi registered = registry.getServiceProviderByClass(fresh.getClass());
    if (registered != null) {
      return registered;
    }
    registry.registerServiceProvider(fresh);
    return fresh;
  }
}

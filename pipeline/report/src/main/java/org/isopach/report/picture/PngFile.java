package org.isopach.report.picture;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageOutputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.isopach.report.file.CompleteFile;

/** Writes pictures as PNG. */
public final class PngFile {
  private static final float LIGHT_COMPRESSION = 0.7f;

  private PngFile() {}

  /** Makes or replaces a file and returns its SHA-256 digest. */
  public static String write(Path target, BufferedImage image) throws IOException {
    return CompleteFile.write(
        target,
        out -> {
          ImageWriter writer = ImageIO.getImageWritersByFormatName("png").next();
          try (ImageOutputStream stream = new MemoryCacheImageOutputStream(out)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality(LIGHT_COMPRESSION);
            writer.setOutput(stream);
            writer.write(null, new IIOImage(image, null, null), how);
          } finally {
            writer.dispose();
          }
        });
  }
}

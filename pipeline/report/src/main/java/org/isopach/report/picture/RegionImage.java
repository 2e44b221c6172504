package org.isopach.report.picture;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import org.isopach.analysis.region.RegionLabels;

/**
 * The label image of a frame: 8 bits grey, as wide as the frame has A-scans and as high as it has
 * depths. 0 is none, else {@link org.isopach.analysis.region.RegionKind#label()}.
 */
public final class RegionImage {
  private RegionImage() {}

  /** Writes a frame's labels as PNG and returns the SHA-256 digest of the file. */
  public static String write(Path target, RegionLabels labels, int frame) throws IOException {
    int width = labels.size().ascans();
    int height = labels.size().depths();
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_BYTE_GRAY);
    image.getRaster().setDataElements(0, 0, width, height, labels.frame(frame));
    return PngFile.write(target, image);
  }
}

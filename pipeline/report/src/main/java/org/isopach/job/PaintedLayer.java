package org.isopach.job;

import java.awt.image.BufferedImage;
import org.isopach.report.Software;
import org.isopach.report.picture.ThicknessPicture;

/** A layer's picture, drawn once for whoever asks first: its own file or the scan's report. */
final class PaintedLayer {
  private final MappedLayer layer;
  private final Software software;
  private BufferedImage sheet;

  PaintedLayer(MappedLayer layer, Software software) {
    this.layer = layer;
    this.software = software;
  }

  MappedLayer layer() {
    return layer;
  }

  synchronized BufferedImage sheet() {
    if (sheet == null) {
      sheet = ThicknessPicture.paint(layer.map(), layer.table(), software.title());
    }
    return sheet;
  }
}

package org.isopach.report.picture;

import java.awt.Rectangle;
import java.awt.Shape;
import java.awt.geom.Arc2D;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;

/**
 * The square of the sheet that shows the fundus: the same stretch of mm on every sheet, the
 * landmark in the middle, so that sheets can be laid over one another.
 *
 * @param leftPx left edge in picture pixels
 * @param topPx top edge in picture pixels
 * @param sidePx side in picture pixels
 * @param halfMm mm from the landmark to each edge
 */
record MapWindow(int leftPx, int topPx, int sidePx, double halfMm) {
  double pixelsPerMm() {
    return sidePx / (2 * halfMm);
  }

  double xPx(double xMm) {
    return leftPx + (xMm + halfMm) * pixelsPerMm();
  }

  double yPx(double yMm) {
    return topPx + (yMm + halfMm) * pixelsPerMm();
  }

  /** Returns the mm to the right of the landmark of the centre of a picture column. */
  double xMm(int columnPx) {
    return (columnPx + 0.5 - leftPx) / pixelsPerMm() - halfMm;
  }

  /** Returns the mm below the landmark of the centre of a picture row. */
  double yMm(int rowPx) {
    return (rowPx + 0.5 - topPx) / pixelsPerMm() - halfMm;
  }

  Rectangle bounds() {
    return new Rectangle(leftPx, topPx, sidePx, sidePx);
  }

  /** Returns a circle around the landmark. */
  Ellipse2D circle(double radiusMm) {
    double r = radiusMm * pixelsPerMm();
    return new Ellipse2D.Double(xPx(0) - r, yPx(0) - r, 2 * r, 2 * r);
  }

  /** Returns the outline of a sector. */
  Shape outline(SheetSector sector) {
    if (sector.sweepDegrees() >= 360) {
      return circle(sector.outerMm());
    }
    double r = sector.outerMm() * pixelsPerMm();
    Area area =
        new Area(
            new Arc2D.Double(
                xPx(0) - r,
                yPx(0) - r,
                2 * r,
                2 * r,
                sector.startDegrees(),
                sector.sweepDegrees(),
                Arc2D.PIE));
    area.subtract(new Area(circle(sector.innerMm())));
    return area;
  }
}

package org.isopach.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.annotations.AbstractXYAnnotation;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;

/**
 * A hatched stretch of a plot: lines that run up to the right, and a line along its top and its
 * foot. Its sides are open, so that stretches beside one another make steps of one band.
 */
final class HatchedBox extends AbstractXYAnnotation {
  private static final long serialVersionUID = 1L;
  private static final Color LINES = new Color(0x9A, 0xA3, 0xA8);
  private static final Color EDGES = new Color(0x4A, 0x55, 0x5C);
  private static final BasicStroke THIN = new BasicStroke(0.7f);
  private static final BasicStroke EDGE = new BasicStroke(1.1f);
  private static final double STEP_PX = 7;

  private final double fromX;
  private final double toX;
  private final double lowY;
  private final double highY;

  /** Makes a box of an extent in the coordinates of the axes. */
  HatchedBox(double fromX, double toX, double lowY, double highY) {
    this.fromX = fromX;
    this.toX = toX;
    this.lowY = lowY;
    this.highY = highY;
  }

  @Override
  public void draw(
      Graphics2D g2,
      XYPlot plot,
      Rectangle2D dataArea,
      ValueAxis domainAxis,
      ValueAxis rangeAxis,
      int rendererIndex,
      PlotRenderingInfo info) {
    double left = domainAxis.valueToJava2D(fromX, dataArea, plot.getDomainAxisEdge());
    double right = domainAxis.valueToJava2D(toX, dataArea, plot.getDomainAxisEdge());
    double foot = rangeAxis.valueToJava2D(lowY, dataArea, plot.getRangeAxisEdge());
    double top = rangeAxis.valueToJava2D(highY, dataArea, plot.getRangeAxisEdge());
    g2.setColor(LINES);
    g2.setStroke(THIN);
    g2.draw(hatching(left, top, right, foot));
    g2.setColor(EDGES);
    g2.setStroke(EDGE);
    g2.draw(new Line2D.Double(left, top, right, top));
    g2.draw(new Line2D.Double(left, foot, right, foot));
  }

  /**
   * Returns the lines x + y = k * step inside a rectangle; counted from the drawing's corner, so
   * that they go on from one box to the next.
   */
  static Path2D hatching(double left, double top, double right, double foot) {
    Path2D lines = new Path2D.Double();
    for (double k = Math.ceil((left + top) / STEP_PX); k * STEP_PX < right + foot; k++) {
      double sum = k * STEP_PX;
      double x1 = Math.max(left, sum - foot);
      double x2 = Math.min(right, sum - top);
      if (x1 < x2) {
        lines.moveTo(x1, sum - x1);
        lines.lineTo(x2, sum - x2);
      }
    }
    return lines;
  }

  /** Returns a small piece of the hatching for a legend, around (0, 0). */
  static Path2D sample() {
    Path2D sample = hatching(-9, -5, 9, 5);
    sample.append(new Line2D.Double(-9, -5, 9, -5), false);
    sample.append(new Line2D.Double(-9, 5, 9, 5), false);
    return sample;
  }

  static Color edgeColour() {
    return EDGES;
  }
}

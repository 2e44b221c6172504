package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySurface;

/**
 * Draws the boundaries of a frame, with gaps where they have no depth, and their names beside it.
 */
final class FrameLinePainter {
  private static final Font NAME = Ink.plain(12);
  private static final double NAME_STEP = 15;
  private static final Color SHADE = new Color(0, 0, 0, 110);
  private static final BasicStroke SHADE_STROKE =
      new BasicStroke(3.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);

  private final Graphics2D g;
  private final FrameScene scene;
  private final FrameWindow window;

  FrameLinePainter(Graphics2D g, FrameScene scene, FrameWindow window) {
    this.g = g;
    this.scene = scene;
    this.window = window;
  }

  void paintBoundaries() {
    for (Boundary boundary : scene.boundaries().boundaries()) {
      Path2D line = line(scene.boundaries().surface(boundary).orElseThrow());
      BoundaryInk ink = BoundaryInk.of(boundary);
      g.setColor(SHADE);
      g.setStroke(SHADE_STROKE);
      g.draw(line);
      g.setColor(ink.colour());
      g.setStroke(ink.stroke());
      g.draw(line);
    }
  }

  /** Writes the names to the right of the frame, in the order of the eye, with leading lines. */
  void paintNames() {
    List<Boundary> present = new ArrayList<>();
    List<Double> ends = new ArrayList<>();
    for (Boundary boundary : scene.boundaries().boundaries()) {
      double end = end(scene.boundaries().surface(boundary).orElseThrow());
      if (!Double.isNaN(end)) {
        present.add(boundary);
        ends.add(end);
      }
    }
    double[] places = spread(ends);
    double edge = window.bounds().getMaxX();
    g.setFont(NAME);
    for (int i = 0; i < places.length; i++) {
      g.setColor(Ink.SOFT);
      g.setStroke(new BasicStroke(0.9f));
      g.draw(new Line2D.Double(edge + 1, ends.get(i), edge + 12, places[i]));
      g.setColor(Ink.DARK);
      g.drawString(present.get(i).code(), (float) edge + 15, (float) places[i] + 4);
    }
  }

  private Path2D line(BoundarySurface surface) {
    Path2D line = new Path2D.Double();
    boolean drawing = false;
    for (int a = 0; a < surface.ascans(); a++) {
      float depth = surface.depthPx(scene.frame(), a);
      if (Float.isNaN(depth)) {
        drawing = false;
      } else if (drawing) {
        line.lineTo(window.x(a), window.y(depth));
      } else {
        line.moveTo(window.x(a), window.y(depth));
        drawing = true;
      }
    }
    return line;
  }

  /** Returns the y at which a line leaves the frame to the right, or where it is last seen. */
  private double end(BoundarySurface surface) {
    for (int a = surface.ascans() - 1; a >= 0; a--) {
      float depth = surface.depthPx(scene.frame(), a);
      if (!Float.isNaN(depth)) {
        return window.y(depth);
      }
    }
    return Double.NaN;
  }

  /** Returns places in the same order at least a step apart, as near to the ends as can be. */
  private static double[] spread(List<Double> ends) {
    double[] places = new double[ends.size()];
    for (int i = 0; i < places.length; i++) {
      places[i] = ends.get(i);
    }
    for (int round = 0; round < 60; round++) {
      for (int i = 1; i < places.length; i++) {
        double lack = NAME_STEP - (places[i] - places[i - 1]);
        if (lack > 0) {
          places[i - 1] -= lack / 2;
          places[i] += lack / 2;
        }
      }
    }
    return places;
  }
}

package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.List;
import org.isopach.analysis.region.RegionKind;

/** Outlines the regions of a frame; the larger ones carry the letter of their kind. */
final class FrameRegionPainter {
  private static final Font LETTER = Ink.bold(13);
  private static final double LEAST_LETTERED_PX = 260;
  private static final Color TINT = new Color(255, 255, 255, 34);
  private static final Color SHADE = new Color(0, 0, 0, 150);
  private static final BasicStroke SHADE_STROKE =
      new BasicStroke(4.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);

  private final Graphics2D g;
  private final FrameScene scene;
  private final FrameWindow window;

  FrameRegionPainter(Graphics2D g, FrameScene scene, FrameWindow window) {
    this.g = g;
    this.scene = scene;
    this.window = window;
  }

  void paint() {
    if (!scene.labels().any(scene.frame())) {
      return;
    }
    byte[] labels = scene.labels().frame(scene.frame());
    for (RegionKind kind : scene.labels().searched()) {
      List<RegionOutline.Loop> loops =
          RegionOutline.of(labels, scene.scan().size().ascans(), kind.label());
      outline(loops, RegionInk.of(kind));
      loops.forEach(loop -> letter(loop, RegionInk.of(kind)));
    }
  }

  private void outline(List<RegionOutline.Loop> loops, RegionInk ink) {
    Path2D path = new Path2D.Double(Path2D.WIND_NON_ZERO);
    for (RegionOutline.Loop loop : loops) {
      for (int i = 0; i < loop.xs().size(); i++) {
        double x = window.edgeX(loop.xs().get(i));
        double y = window.edgeY(loop.ys().get(i));
        if (i == 0) {
          path.moveTo(x, y);
        } else {
          path.lineTo(x, y);
        }
      }
      path.closePath();
    }
    g.setColor(TINT);
    g.fill(path);
    g.setColor(SHADE);
    g.setStroke(SHADE_STROKE);
    g.draw(path);
    g.setColor(Color.WHITE);
    g.setStroke(ink.stroke());
    g.draw(path);
  }

  private void letter(RegionOutline.Loop loop, RegionInk ink) {
    double drawn =
        loop.area() * (window.edgeX(1) - window.edgeX(0)) * (window.edgeY(1) - window.edgeY(0));
    if (drawn < LEAST_LETTERED_PX) {
      return;
    }
    double x = middle(loop.xs());
    double y = middle(loop.ys());
    Ink.label(g, LETTER, ink.letter(), window.edgeX(x), window.edgeY(y), 0);
  }

  private static double middle(List<Integer> corners) {
    int least = corners.stream().mapToInt(Integer::intValue).min().orElseThrow();
    int most = corners.stream().mapToInt(Integer::intValue).max().orElseThrow();
    return (least + most) / 2.0;
  }
}

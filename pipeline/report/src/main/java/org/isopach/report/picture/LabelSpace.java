package org.isopach.report.picture;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Keeps labels from lying on one another. */
final class LabelSpace {
  private final Rectangle2D bounds;
  private final List<Rectangle2D> taken = new ArrayList<>();

  LabelSpace(Rectangle2D bounds) {
    this.bounds = bounds;
  }

  /** Takes a box in any case. */
  void take(Rectangle2D box, double marginPx) {
    taken.add(grown(box, marginPx));
  }

  /** Takes a box and returns true, or returns false when it is outside or touches another. */
  boolean tryTake(Rectangle2D box, double marginPx) {
    Rectangle2D wanted = grown(box, marginPx);
    if (!bounds.contains(wanted) || taken.stream().anyMatch(wanted::intersects)) {
      return false;
    }
    taken.add(wanted);
    return true;
  }

  private static Rectangle2D grown(Rectangle2D box, double by) {
    return new Rectangle2D.Double(
        box.getX() - by, box.getY() - by, box.getWidth() + 2 * by, box.getHeight() + 2 * by);
  }
}

package org.isopach.report.picture;

import java.awt.Graphics2D;

/** A line drawn over the map of a sheet. */
interface SheetLine {
  void paint(Graphics2D g, MapWindow window);
}

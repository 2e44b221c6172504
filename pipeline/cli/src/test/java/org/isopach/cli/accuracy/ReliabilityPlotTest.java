package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYDataset;
import org.junit.jupiter.api.Test;

class ReliabilityPlotTest {
  @Test
  void drawsOnlyStepsThatHoldEnoughDepths() {
    Reliability healthy = new Reliability();
    for (int i = 0; i < 400; i++) {
      healthy.add(0.92, i % 4 == 0 ? 9 : 0);
    }
    healthy.add(0.32, 0);
    XYPlot plot = ReliabilityPlot.chart("ILM", healthy, new Reliability()).getXYPlot();
    XYDataset data = plot.getDataset();

    assertEquals(3, data.getSeriesCount());
    assertEquals(1, data.getItemCount(1));
    assertEquals(0.92, data.getXValue(1, 0), 1e-9);
    assertEquals(0.75, data.getYValue(1, 0), 1e-9);
    assertEquals(0, data.getItemCount(2));
    assertEquals(1, plot.getRangeAxis().getUpperBound());
  }
}

package org.isopach.report.plot;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import org.isopach.report.SampleRepeats;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.plot.XYPlot;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BlandAltmanPlotTest {
  private static final Software SOFTWARE = new Software("Isopach", "9.9");

  @TempDir private Path folder;

  @Test
  void drawsEveryPairAndNamesTheLimits() throws Exception {
    JFreeChart chart = BlandAltmanPlot.of(SampleRepeats.flow(), SOFTWARE);
    XYPlot plot = chart.getXYPlot();

    assertEquals(9, plot.getDataset().getItemCount(0), "right eyes");
    assertEquals(8, plot.getDataset().getItemCount(1), "left eyes");
    // The first pair of Bland and Altman's table: 494 and 512, so 18 more at 503.
    assertEquals(503, plot.getDataset().getXValue(0, 6));
    assertEquals(18, plot.getDataset().getYValue(0, 6));
    assertTrue(plot.getRangeAxis().getRange().contains(-73.86 - 34.52));
    assertTrue(plot.getRangeAxis().getRange().contains(78.10 + 34.52));

    Path target = folder.resolve("plot.svg");
    PlotFile.svg(target, chart, 600, 400);
    String svg = Files.readString(target);
    // Signs are the other way round in the paper, which gives the first less the second meter.
    assertTrue(svg.contains("bias +2.12 µm"), "bias");
    assertTrue(svg.contains("upper limit +78.10 µm"), "upper limit");
    assertTrue(svg.contains("lower limit -73.86 µm"), "lower limit");
    assertTrue(svg.contains("17 pairs of repeats"), "note");
    assertTrue(svg.contains("Not a diagnosis"), "cautions");
  }

  @Test
  void refusesWhatHasNoLimits() {
    assertThrows(
        IllegalArgumentException.class, () -> BlandAltmanPlot.of(SampleRepeats.two(), SOFTWARE));
  }
}

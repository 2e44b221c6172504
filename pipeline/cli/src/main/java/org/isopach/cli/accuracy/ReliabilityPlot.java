package org.isopach.cli.accuracy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.isopach.report.plot.HousePlot;
import org.isopach.report.plot.PlotFile;
import org.isopach.report.plot.PlotInk;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/** Draws, for each boundary, the share of right depths over the confidence given with them. */
final class ReliabilityPlot {
  private static final int ACROSS = 4;
  private static final int SIDE = 300;
  private static final long LEAST_COUNT = 200;

  private ReliabilityPlot() {}

  /** Writes the picture as a PNG. */
  static void write(Path target, ConfidenceTables tables) throws IOException {
    List<JFreeChart> charts = new ArrayList<>();
    for (Boundary boundary : Boundary.values()) {
      charts.add(chart(boundary.code(), tables.healthy(boundary), tables.sick(boundary)));
    }
    PlotFile.png(target, charts, ACROSS, SIDE, SIDE);
  }

  static JFreeChart chart(String title, Reliability healthy, Reliability sick) {
    XYSeries even = new XYSeries("as said");
    even.add(0, 0);
    even.add(1, 1);
    XYSeriesCollection data = new XYSeriesCollection();
    data.addSeries(even);
    data.addSeries(series("healthy", healthy));
    data.addSeries(series("sick", sick));
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer();
    HousePlot.ink(renderer, 0, PlotInk.GREY, false, true);
    HousePlot.ink(renderer, 1, PlotInk.BLUE, true, true);
    HousePlot.ink(renderer, 2, PlotInk.VERMILION, true, true);
    return HousePlot.plain(
        title, new XYPlot(data, axis("confidence"), axis("share within 2 px"), renderer));
  }

  private static NumberAxis axis(String title) {
    NumberAxis axis = HousePlot.axis(title);
    axis.setRange(0, 1);
    return axis;
  }

  /** Returns the steps that hold enough depths; none when no step does. */
  private static XYSeries series(String name, Reliability reliability) {
    XYSeries series = new XYSeries(name);
    for (int i = 0; i < Reliability.STEPS; i++) {
      if (reliability.count(i, i + 1) >= LEAST_COUNT) {
        series.add(reliability.meanConfidence(i, i + 1), reliability.rightShare(i, i + 1));
      }
    }
    return series;
  }
}

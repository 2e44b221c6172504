package org.isopach.cli.accuracy;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.knowm.xchart.BitmapEncoder;
import org.knowm.xchart.XYChart;
import org.knowm.xchart.XYChartBuilder;
import org.knowm.xchart.XYSeries;
import org.knowm.xchart.style.Styler;
import org.knowm.xchart.style.markers.Marker;
import org.knowm.xchart.style.markers.SeriesMarkers;

/**
 * Draws, for each boundary, the share of right depths over the confidence given with them. Blue and
 * vermilion of Okabe and Ito's palette (2008, from memory), told apart by marks and dashes too.
 */
final class ReliabilityPlot {
  private static final Color HEALTHY = new Color(0, 114, 178);
  private static final Color SICK = new Color(213, 94, 0);
  private static final Color EVEN = new Color(150, 150, 150);
  private static final BasicStroke WHOLE = new BasicStroke(1.6f);
  private static final BasicStroke DASHED =
      new BasicStroke(
          1.6f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, new float[] {6, 3}, 0);
  private static final int ACROSS = 4;
  private static final int SIDE = 300;
  private static final long LEAST_COUNT = 200;

  private ReliabilityPlot() {}

  /** Writes the picture as a PNG. */
  static void write(Path target, ConfidenceTables tables) throws IOException {
    List<XYChart> charts = new ArrayList<>();
    for (Boundary boundary : Boundary.values()) {
      charts.add(chart(boundary, tables.healthy(boundary), tables.sick(boundary)));
    }
    BitmapEncoder.saveBitmap(
        charts,
        (charts.size() + ACROSS - 1) / ACROSS,
        ACROSS,
        target.toString(),
        BitmapEncoder.BitmapFormat.PNG);
  }

  private static XYChart chart(Boundary boundary, Reliability healthy, Reliability sick) {
    XYChart chart =
        new XYChartBuilder()
            .width(SIDE)
            .height(SIDE)
            .title(boundary.code())
            .xAxisTitle("confidence")
            .yAxisTitle("share within 2 px")
            .build();
    Font letters = new Font("DejaVu Sans", Font.PLAIN, 11);
    chart
        .getStyler()
        .setXAxisMin(0.0)
        .setXAxisMax(1.0)
        .setYAxisMin(0.0)
        .setYAxisMax(1.0)
        .setChartBackgroundColor(Color.WHITE)
        .setChartTitleFont(letters.deriveFont(Font.BOLD, 13f))
        .setLegendPosition(Styler.LegendPosition.InsideSE)
        .setLegendFont(letters)
        .setLegendBorderColor(Color.WHITE);
    chart.getStyler().setAxisTitleFont(letters).setAxisTickLabelsFont(letters);
    line(chart, "as said", new double[] {0, 1}, new double[] {0, 1}, EVEN, SeriesMarkers.NONE);
    add(chart, "healthy", healthy, HEALTHY, SeriesMarkers.CIRCLE);
    add(chart, "sick", sick, SICK, SeriesMarkers.DIAMOND).setLineStyle(DASHED);
    return chart;
  }

  /** Adds a line through the steps that hold enough depths; an empty one when none does. */
  private static XYSeries add(
      XYChart chart, String name, Reliability reliability, Color colour, Marker marker) {
    List<Double> x = new ArrayList<>();
    List<Double> y = new ArrayList<>();
    for (int i = 0; i < Reliability.STEPS; i++) {
      if (reliability.count(i, i + 1) >= LEAST_COUNT) {
        x.add(reliability.meanConfidence(i, i + 1));
        y.add(reliability.rightShare(i, i + 1));
      }
    }
    if (x.isEmpty()) {
      x.add(Double.NaN);
      y.add(Double.NaN);
    }
    return line(
        chart,
        name,
        x.stream().mapToDouble(Double::doubleValue).toArray(),
        y.stream().mapToDouble(Double::doubleValue).toArray(),
        colour,
        marker);
  }

  private static XYSeries line(
      XYChart chart, String name, double[] x, double[] y, Color colour, Marker marker) {
    XYSeries series = chart.addSeries(name, x, y);
    series.setMarkerColor(colour).setMarker(marker);
    series.setLineColor(colour).setLineStyle(WHOLE);
    return series;
  }
}

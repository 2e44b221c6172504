package org.isopach.report.plot;

import java.awt.Color;
import java.awt.Font;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.repeat.RepeatedValues;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.analysis.stat.BlandAltman;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.IntervalMarker;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * Differences of repeats over their mean, with bias, limits of agreement and, shaded, their
 * intervals (Bland and Altman, Lancet 1986;i:307). Right and left eyes differ in mark and colour.
 */
public final class BlandAltmanPlot {
  private static final float SHADE = 0.16f;
  private static final Color NONE = new Color(255, 255, 255, 0);
  private static final double ROOM = 0.25;
  private static final double ROOM_FOR_WORDS = 0.28;

  private BlandAltmanPlot() {}

  /**
   * Returns the chart.
   *
   * @throws IllegalArgumentException when there are no limits of agreement
   */
  public static JFreeChart of(SectorRepeatability sector, Software software) {
    BlandAltman agreement =
        sector
            .agreement()
            .value()
            .orElseThrow(() -> new IllegalArgumentException(sector.agreement().reason()));
    return of(
        "Repeats of " + sector.layer().name() + ", " + sector.sector(),
        List.of("mean of first and second repeat, µm", "second less first repeat, µm"),
        points(sector.sessions()),
        agreement,
        notes(sector, agreement),
        software);
  }

  /**
   * Returns a chart of differences over means.
   *
   * @param axes the words of both axes, the one across first
   * @param data the points of right and of left eyes
   */
  static JFreeChart of(
      String title,
      List<String> axes,
      XYSeriesCollection data,
      BlandAltman agreement,
      List<String> notes,
      Software software) {
    NumberAxis means = HousePlot.axis(axes.get(0));
    means.setUpperMargin(ROOM_FOR_WORDS);
    NumberAxis differences = HousePlot.axis(axes.get(1));
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, true);
    HousePlot.ink(renderer, 0, PlotInk.BLUE, true, false);
    HousePlot.ink(renderer, 1, PlotInk.VERMILION, true, false);
    XYPlot plot = new XYPlot(data, means, differences, renderer);
    range(differences, agreement, data);
    line(plot, "bias", agreement.bias(), agreement.biasInterval(), PlotInk.GREEN);
    line(plot, "lower limit", agreement.lowerLimit(), agreement.lowerLimitInterval(), PlotInk.GREY);
    line(plot, "upper limit", agreement.upperLimit(), agreement.upperLimitInterval(), PlotInk.GREY);
    return HousePlot.chart(title, plot, notes, software);
  }

  private static List<String> notes(SectorRepeatability sector, BlandAltman agreement) {
    return List.of(
        String.format(
            Locale.ROOT,
            "%d eyes, %d pairs of repeats. Limits: bias ± 1.96 SD; shaded: their 95 %% confidence"
                + " intervals. Aligned by: %s.",
            sector.eyes(),
            agreement.n(),
            String.join(", ", sector.alignments())),
        "Mean thickness of a sector in µm along the A-scan. Right and left eyes of one patient are"
            + " not independent.");
  }

  private static XYSeriesCollection points(List<RepeatedValues> sessions) {
    XYSeries right = new XYSeries("right eye");
    XYSeries left = new XYSeries("left eye");
    for (RepeatedValues session : sessions) {
      XYSeries side =
          switch (session.eye().laterality()) {
            case RIGHT -> right;
            case LEFT -> left;
          };
      side.add(session.pairMeanUm(), session.pairDifferenceUm());
    }
    XYSeriesCollection data = new XYSeriesCollection();
    data.addSeries(right);
    data.addSeries(left);
    return data;
  }

  /** Markers do not widen an axis by themselves. */
  private static void range(NumberAxis axis, BlandAltman agreement, XYSeriesCollection data) {
    double low = agreement.lowerLimitInterval().lower();
    double high = agreement.upperLimitInterval().upper();
    for (int s = 0; s < data.getSeriesCount(); s++) {
      if (data.getItemCount(s) > 0) {
        low = Math.min(low, data.getSeries(s).getMinY());
        high = Math.max(high, data.getSeries(s).getMaxY());
      }
    }
    double room = Math.max(ROOM, 0.06 * (high - low));
    axis.setRange(low - room, high + room);
  }

  private static void line(
      XYPlot plot, String name, double value, ConfidenceInterval interval, PlotInk ink) {
    IntervalMarker shade = new IntervalMarker(interval.lower(), interval.upper(), ink.colour());
    shade.setAlpha(SHADE);
    plot.addRangeMarker(shade, Layer.BACKGROUND);
    ValueMarker line = new ValueMarker(value, ink.colour(), ink.stroke());
    line.setAlpha(1);
    line.setLabel(String.format(Locale.ROOT, "%s %+.2f µm", name, value));
    line.setLabelFont(HousePlot.letters(Font.PLAIN, 11));
    line.setLabelBackgroundColor(NONE);
    line.setLabelPaint(HousePlot.DARK);
    line.setLabelAnchor(RectangleAnchor.TOP_RIGHT);
    line.setLabelTextAnchor(TextAnchor.BOTTOM_RIGHT);
    plot.addRangeMarker(line, Layer.FOREGROUND);
  }
}

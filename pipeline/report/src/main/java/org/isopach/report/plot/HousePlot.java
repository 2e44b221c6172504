package org.isopach.report.plot;

import java.awt.Color;
import java.awt.Font;
import java.util.ArrayList;
import java.util.List;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.title.LegendTitle;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;

/**
 * The house's style for charts: white ground, dark letters, faint lines behind, titles with units
 * at the axes, and at the foot what a reader must know, the cautions and the program.
 */
public final class HousePlot {
  private static final String LETTERS = "DejaVu Sans";
  static final Color DARK = new Color(0x22, 0x22, 0x22);
  private static final Color FAINT = new Color(0xDD, 0xDD, 0xDD);
  private static final RectangleInsets MARGIN = new RectangleInsets(8, 10, 6, 14);
  private static final RectangleInsets CLOSE = new RectangleInsets(1, 4, 1, 4);

  private HousePlot() {}

  /** Returns an axis for numbers whose range need not hold zero; its title should name the unit. */
  public static NumberAxis axis(String title) {
    NumberAxis axis = new NumberAxis(title);
    axis.setAutoRangeIncludesZero(false);
    return axis;
  }

  /** Gives a renderer's series an ink: marks, line, or both. */
  public static void ink(
      XYLineAndShapeRenderer renderer, int series, PlotInk ink, boolean marks, boolean line) {
    renderer.setSeriesPaint(series, ink.colour());
    renderer.setSeriesShape(series, ink.mark());
    renderer.setSeriesStroke(series, ink.stroke());
    renderer.setSeriesShapesVisible(series, marks);
    renderer.setSeriesShapesFilled(series, true);
    renderer.setSeriesLinesVisible(series, line);
  }

  /**
   * Returns a chart in the house's style.
   *
   * @param title what is shown, of whom
   * @param plot data, axes with titles, inks
   * @param notes sentences for the foot, above the cautions; may be empty
   * @param software named at the foot
   */
  public static JFreeChart chart(String title, XYPlot plot, List<String> notes, Software software) {
    JFreeChart chart = plain(title, plot);
    List<String> lines = new ArrayList<>(notes);
    lines.add(Cautions.LINE + " " + software.title());
    // Of what stands at the bottom, the first is lowest.
    for (String line : lines) {
      TextTitle foot = new TextTitle(line, letters(Font.PLAIN, 10));
      foot.setPaint(DARK);
      foot.setPosition(RectangleEdge.BOTTOM);
      foot.setHorizontalAlignment(HorizontalAlignment.LEFT);
      foot.setTextAlignment(HorizontalAlignment.LEFT);
      foot.setPadding(CLOSE);
      chart.addSubtitle(0, foot);
    }
    return chart;
  }

  /** Returns a chart in the house's style without a foot, for sheets that have one of their own. */
  public static JFreeChart plain(String title, XYPlot plot) {
    plot.setBackgroundPaint(Color.WHITE);
    plot.setDomainGridlinePaint(FAINT);
    plot.setRangeGridlinePaint(FAINT);
    plot.setOutlinePaint(DARK);
    for (int i = 0; i < plot.getDomainAxisCount(); i++) {
      style(plot.getDomainAxis(i));
    }
    for (int i = 0; i < plot.getRangeAxisCount(); i++) {
      style(plot.getRangeAxis(i));
    }
    JFreeChart chart = new JFreeChart(title, letters(Font.BOLD, 14), plot, true);
    chart.getTitle().setPaint(DARK);
    chart.setBackgroundPaint(Color.WHITE);
    chart.setPadding(MARGIN);
    LegendTitle legend = chart.getLegend();
    legend.setItemFont(letters(Font.PLAIN, 11));
    legend.setItemPaint(DARK);
    legend.setBackgroundPaint(Color.WHITE);
    return chart;
  }

  /** Returns the plots' letters. */
  public static Font letters(int style, int size) {
    return new Font(LETTERS, style, size);
  }

  private static void style(ValueAxis axis) {
    axis.setLabelFont(letters(Font.PLAIN, 12));
    axis.setTickLabelFont(letters(Font.PLAIN, 11));
    axis.setLabelPaint(DARK);
    axis.setTickLabelPaint(DARK);
    axis.setAxisLinePaint(DARK);
    axis.setTickMarkPaint(DARK);
  }
}

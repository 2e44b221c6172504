package org.isopach.report.plot;

import java.awt.Font;
import java.text.SimpleDateFormat;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesTrend;
import org.isopach.analysis.series.TreatmentEvent;
import org.isopach.analysis.series.VisitPoint;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.annotations.XYTextAnnotation;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * The chart of an eye's course in one layer: a line for each sector over the dates, broken where a
 * visit gave no number, with a cross at the foot for that visit, and an upright line for every
 * treatment.
 */
public final class SeriesPlot {
  /** Width of the drawing, px. */
  public static final int WIDTH = 860;

  /** Height of the drawing, px. */
  public static final int HEIGHT = 500;

  private static final double MILLIS_PER_DAY = 86_400_000;
  private static final int MOST_LETTERS = 28;
  private static final double LEAST_SPAN_UM = 20;
  private static final double ROOM_BELOW = 0.10;
  private static final double ROOM_ABOVE = 0.14;

  private SeriesPlot() {}

  /**
   * Returns the chart, or one without lines when no visit gave a number.
   *
   * @param course whose treatments are marked
   * @param sectors the series to draw, of one layer; at least one
   */
  public static JFreeChart chart(EyeCourse course, List<VisitSeries> sectors, Software software) {
    XYSeriesCollection data = new XYSeriesCollection();
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer();
    for (int i = 0; i < sectors.size(); i++) {
      data.addSeries(line(sectors.get(i)));
      HousePlot.ink(renderer, i, PlotInk.ALL.get(i), true, true);
    }
    NumberAxis values = HousePlot.axis("mean thickness, \u00B5m");
    range(values, data);
    XYPlot plot = new XYPlot(data, dates(sectors.get(0)), values, renderer);
    missing(plot, sectors, values);
    course.treatments().forEach(event -> mark(plot, event, values));
    String layer = LayerCatalogue.shortName(sectors.get(0).layer());
    return HousePlot.chart(
        "Patient "
            + course.eye().patientId()
            + ", "
            + course.eye().laterality().word()
            + " eye: "
            + layer,
        plot,
        notes(course, sectors),
        software);
  }

  private static XYSeries line(VisitSeries series) {
    XYSeries line = new XYSeries(series.sector(), false, true);
    for (VisitPoint point : series.points()) {
      double value = point.given().map(one -> one.valueUm()).orElse(Double.NaN);
      line.add(millis(point.date()), value);
    }
    return line;
  }

  private static double millis(LocalDate date) {
    return date.atStartOfDay().toInstant(ZoneOffset.UTC).toEpochMilli();
  }

  private static DateAxis dates(VisitSeries series) {
    TimeZone utc = TimeZone.getTimeZone(ZoneOffset.UTC);
    DateAxis axis = new DateAxis("date of the visit", utc, Locale.ROOT);
    SimpleDateFormat format = new SimpleDateFormat("yyyy-MM-dd", Locale.ROOT);
    format.setTimeZone(utc);
    axis.setDateFormatOverride(format);
    double first = millis(series.points().get(0).date());
    double last = millis(series.points().get(series.points().size() - 1).date());
    double room = Math.max(3 * MILLIS_PER_DAY, 0.05 * (last - first));
    axis.setRange(first - room, last + room);
    return axis;
  }

  private static void range(NumberAxis axis, XYSeriesCollection data) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int s = 0; s < data.getSeriesCount(); s++) {
      for (int i = 0; i < data.getItemCount(s); i++) {
        double value = data.getYValue(s, i);
        low = Double.isNaN(value) ? low : Math.min(low, value);
        high = Double.isNaN(value) ? high : Math.max(high, value);
      }
    }
    if (low > high) {
      axis.setRange(0, 1);
      axis.setTickLabelsVisible(false);
      return;
    }
    double widen = Math.max(0, (LEAST_SPAN_UM - (high - low)) / 2);
    double span = high - low + 2 * widen;
    axis.setRange(low - widen - ROOM_BELOW * span, high + widen + ROOM_ABOVE * span);
  }

  private static void missing(XYPlot plot, List<VisitSeries> sectors, NumberAxis values) {
    for (int i = 0; i < sectors.size(); i++) {
      double height = values.getLowerBound() + (0.02 + 0.035 * i) * values.getRange().getLength();
      for (VisitPoint point : sectors.get(i).points()) {
        if (point.given().isEmpty()) {
          XYTextAnnotation cross = new XYTextAnnotation("\u00D7", millis(point.date()), height);
          cross.setFont(HousePlot.letters(Font.BOLD, 14));
          cross.setPaint(PlotInk.ALL.get(i).colour());
          plot.addAnnotation(cross);
        }
      }
    }
  }

  private static void mark(XYPlot plot, TreatmentEvent event, NumberAxis values) {
    double x = millis(event.date());
    ValueMarker line = new ValueMarker(x, HousePlot.DARK, PlotInk.GREY.stroke());
    line.setAlpha(1);
    plot.addDomainMarker(line, Layer.BACKGROUND);
    XYTextAnnotation text = new XYTextAnnotation(shortened(event.what()), x, top(values));
    text.setFont(HousePlot.letters(Font.PLAIN, 10));
    text.setPaint(HousePlot.DARK);
    text.setTextAnchor(TextAnchor.BOTTOM_RIGHT);
    text.setRotationAnchor(TextAnchor.BOTTOM_RIGHT);
    text.setRotationAngle(-Math.PI / 2);
    plot.addAnnotation(text);
  }

  private static double top(NumberAxis values) {
    return values.getUpperBound() - 0.01 * values.getRange().getLength();
  }

  private static String shortened(String what) {
    String plain = what.replaceAll("\\p{Cntrl}", " ").strip();
    return plain.length() <= MOST_LETTERS ? plain : plain.substring(0, MOST_LETTERS - 1) + "\u2026";
  }

  private static List<String> notes(EyeCourse course, List<VisitSeries> sectors) {
    List<String> notes = new ArrayList<>();
    sectors.forEach(series -> notes.add(slope(series)));
    boolean gaps = sectors.stream().anyMatch(one -> one.points().size() > one.measured().size());
    String marks =
        (gaps ? "\u00D7 at the foot: visit without a number. " : "")
            + (course.treatments().isEmpty() ? "" : "Dashed upright lines: treatments. ");
    notes.add(marks + "No bars: how far a single visit may be off by noise is not drawn here.");
    return notes;
  }

  private static String slope(VisitSeries series) {
    SeriesTrend trend = SeriesTrend.of(series);
    if (trend.refusal().isPresent()) {
      String difference =
          trend.visits() == 2
              ? String.format(
                  Locale.ROOT, "; difference %+.1f \u00B5m", trend.differenceUm().getAsDouble())
              : "";
      return series.sector() + ": no slope, " + trend.refusal().get() + difference;
    }
    LinearTrend line = trend.line().orElseThrow();
    return String.format(
        Locale.ROOT,
        "%s: %+.1f \u00B5m per year (95 %% interval %+.1f to %+.1f), robust %+.1f; %d visits over"
            + " %d days",
        series.sector(),
        line.slope(),
        line.slopeInterval().lower(),
        line.slopeInterval().upper(),
        trend.robust().orElseThrow().slope(),
        trend.visits(),
        trend.spanDays());
  }
}

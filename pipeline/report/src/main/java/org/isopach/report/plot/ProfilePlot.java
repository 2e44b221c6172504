package org.isopach.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.text.FieldPosition;
import java.text.NumberFormat;
import java.text.ParsePosition;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * The nerve fibre layer round the disc, from temporal over superior, nasal, inferior back to
 * temporal: this visit as a heavy line, earlier visits as thin ones, the other eye dashed, the
 * range of a reference group hatched. A line is open where there is no value.
 */
public final class ProfilePlot {
  /** Width of the drawing, px. */
  public static final int WIDTH = 900;

  /** Height of the drawing, px. */
  public static final int HEIGHT = 540;

  /** Earlier visits drawn at most. */
  public static final int MOST_EARLIER = 6;

  private static final double LEAST_TOP_UM = 200;
  private static final double TOP_STEP_UM = 50;
  private static final float HEAVY = 2.4f;
  private static final float THIN = 0.9f;
  private static final float MIDDLE = 1.5f;
  private static final List<Color> EARLIER_INKS =
      List.of(
          PlotInk.GREEN.colour(),
          PlotInk.PURPLE.colour(),
          new Color(60, 60, 60),
          PlotInk.GREY.colour());
  private static final float[][] EARLIER_DASHES = {null, {9, 3}, {2, 2}, {9, 3, 2, 3}};

  private ProfilePlot() {}

  /** Returns the chart. */
  public static JFreeChart of(ProfileScene scene, Software software) {
    XYSeriesCollection data = new XYSeriesCollection();
    XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
    // As one path, so that dashes go on from sample to sample.
    renderer.setDrawSeriesLineAsPath(true);
    add(data, renderer, "this scan", scene.profile(), PlotInk.BLUE.colour(), stroke(HEAVY, null));
    scene
        .otherEye()
        .ifPresent(
            other ->
                add(
                    data,
                    renderer,
                    other.words(),
                    other.profile(),
                    PlotInk.VERMILION.colour(),
                    stroke(MIDDLE, new float[] {7, 4})));
    List<ProfileScene.Line> earlier = scene.earlier();
    for (int i = 0; i < Math.min(MOST_EARLIER, earlier.size()); i++) {
      add(
          data,
          renderer,
          earlier.get(i).words(),
          earlier.get(i).profile(),
          EARLIER_INKS.get(i % EARLIER_INKS.size()),
          stroke(THIN, EARLIER_DASHES[i % EARLIER_DASHES.length]));
    }
    XYPlot plot =
        new XYPlot(data, angles(scene.profile().zero()), thickness(data, scene), renderer);
    scene.bands().forEach(band -> hatch(renderer, band));
    plot.setFixedLegendItems(legend(renderer, data, scene));
    return HousePlot.chart(scene.title(), plot, notes(scene), software);
  }

  private static void add(
      XYSeriesCollection data,
      XYLineAndShapeRenderer renderer,
      String words,
      CircleProfile profile,
      Color colour,
      BasicStroke stroke) {
    int index = data.getSeriesCount();
    XYSeries line = new XYSeries(index + " " + words, false, true);
    line.setDescription(words);
    for (int i = 0; i < profile.samples(); i++) {
      line.add(profile.angleDegrees(i), profile.thicknessUm(i));
    }
    line.add(DiscAngle.FULL_TURN, profile.thicknessUm(0));
    data.addSeries(line);
    renderer.setSeriesPaint(index, colour);
    renderer.setSeriesStroke(index, stroke);
  }

  private static BasicStroke stroke(float width, float[] dashes) {
    return new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dashes, 0);
  }

  private static NumberAxis angles(AngleZero zero) {
    NumberAxis axis =
        HousePlot.axis(
            "angle round the disc, degrees: T temporal, S superior, N nasal, I inferior; 0 is "
                + switch (zero.kind()) {
                  case HORIZONTAL -> "the horizontal";
                  case FOVEA_DISC_LINE -> "the line to the fovea";
                });
    axis.setRange(0, DiscAngle.FULL_TURN);
    axis.setTickUnit(new NumberTickUnit(45, new Directions()));
    return axis;
  }

  private static NumberAxis thickness(XYSeriesCollection data, ProfileScene scene) {
    NumberAxis axis = HousePlot.axis("nerve fibre layer, thickness along the A-scan, \u00B5m");
    double top = LEAST_TOP_UM;
    for (int s = 0; s < data.getSeriesCount(); s++) {
      for (int i = 0; i < data.getItemCount(s); i++) {
        double value = data.getYValue(s, i);
        top = Double.isNaN(value) ? top : Math.max(top, value);
      }
    }
    for (ProfileScene.Band band : scene.bands()) {
      top = Math.max(top, band.highUm());
    }
    axis.setRange(0, TOP_STEP_UM * Math.ceil(top / TOP_STEP_UM));
    axis.setTickUnit(new NumberTickUnit(TOP_STEP_UM / 2));
    return axis;
  }

  /** A band that goes past a full turn is two boxes. */
  private static void hatch(XYLineAndShapeRenderer renderer, ProfileScene.Band band) {
    double end = band.fromDegrees() + band.widthDegrees();
    double low = Math.max(0, band.lowUm());
    box(renderer, band.fromDegrees(), Math.min(end, DiscAngle.FULL_TURN), low, band.highUm());
    if (end > DiscAngle.FULL_TURN) {
      box(renderer, 0, end - DiscAngle.FULL_TURN, low, band.highUm());
    }
  }

  private static void box(
      XYLineAndShapeRenderer renderer, double from, double to, double low, double high) {
    renderer.addAnnotation(new HatchedBox(from, to, low, high), Layer.BACKGROUND);
  }

  private static LegendItemCollection legend(
      XYLineAndShapeRenderer renderer, XYSeriesCollection data, ProfileScene scene) {
    LegendItemCollection items = new LegendItemCollection();
    for (int i = 0; i < data.getSeriesCount(); i++) {
      LegendItem item =
          new LegendItem(
              data.getSeries(i).getDescription(),
              null,
              null,
              null,
              new java.awt.geom.Line2D.Double(-14, 0, 14, 0),
              (BasicStroke) renderer.getSeriesStroke(i),
              renderer.getSeriesPaint(i));
      items.add(item);
    }
    if (!scene.bands().isEmpty()) {
      items.add(
          new LegendItem(
              scene.bandWords(),
              null,
              null,
              null,
              HatchedBox.sample(),
              new BasicStroke(0.8f),
              HatchedBox.edgeColour()));
    }
    return items;
  }

  private static List<String> notes(ProfileScene scene) {
    List<String> notes = new ArrayList<>(scene.notes());
    int more = scene.earlier().size() - MOST_EARLIER;
    if (more > 0) {
      notes.add(more + " still earlier visits are not drawn.");
    }
    return notes;
  }

  /** Writes degrees, and the direction where there is one. */
  private static final class Directions extends NumberFormat {
    private static final long serialVersionUID = 1L;

    @Override
    public StringBuffer format(double number, StringBuffer to, FieldPosition position) {
      return format(Math.round(number), to, position);
    }

    @Override
    public StringBuffer format(long degrees, StringBuffer to, FieldPosition position) {
      String direction =
          switch ((int) Math.floorMod(degrees, 360L)) {
            case 0 -> "T ";
            case 90 -> "S ";
            case 180 -> "N ";
            case 270 -> "I ";
            default -> "";
          };
      return to.append(direction).append(degrees).append('\u00B0');
    }

    @Override
    public Number parse(String source, ParsePosition position) {
      throw new UnsupportedOperationException("an axis writes only");
    }
  }
}

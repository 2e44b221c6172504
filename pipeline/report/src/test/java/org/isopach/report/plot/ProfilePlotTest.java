package org.isopach.report.plot;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.annotations.XYAnnotation;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYDataset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ProfilePlotTest {
  private static final Software SOFTWARE = new Software("Isopach", "9.9");
  private static final String GROUP = "group-x, N = 77";

  @TempDir private Path folder;

  @Test
  void drawsThisScanTheOtherEyeAndEarlierVisitsInThatOrder() {
    XYPlot plot = ProfilePlot.of(scene(2, List.of()), SOFTWARE).getXYPlot();
    XYDataset data = plot.getDataset();

    assertEquals(4, data.getSeriesCount());
    assertEquals(200.0, plot.getRangeAxis().getUpperBound());
    assertEquals(
        List.of("this scan", "left eye, mirrored", "earlier 0", "earlier 1"),
        IntStream.range(0, 4).mapToObj(i -> plot.getLegendItems().get(i).getLabel()).toList());
    // A full turn and its first sample again, so that the line closes.
    assertEquals(CircleProfile.SAMPLES + 1, data.getItemCount(0));
    assertEquals(360.0, data.getXValue(0, CircleProfile.SAMPLES));
    assertEquals(data.getYValue(0, 0), data.getYValue(0, CircleProfile.SAMPLES));
    // Angles are anatomical: the other eye's nasal side stands at 180 degrees like this one's.
    assertEquals(180.0, data.getXValue(1, 384));
    assertEquals(70.0, data.getYValue(1, 384), 1e-4);
    assertEquals(50.0, data.getYValue(0, 384), 1e-4);
    XYLineAndShapeRenderer renderer = (XYLineAndShapeRenderer) plot.getRenderer();
    assertTrue(width(renderer, 0) > width(renderer, 1) && width(renderer, 1) > width(renderer, 2));
  }

  @Test
  void drawsSixEarlierVisitsAndSaysHowManyMoreThereAre() throws Exception {
    JFreeChart chart = ProfilePlot.of(scene(9, List.of()), SOFTWARE);

    assertEquals(2 + ProfilePlot.MOST_EARLIER, chart.getXYPlot().getDataset().getSeriesCount());
    assertTrue(svg(chart).contains("3 still earlier visits are not drawn."));
  }

  @Test
  void hatchesTheRangeOfAGroupAndCutsItAtAFullTurn() throws Exception {
    List<ProfileScene.Band> bands =
        List.of(new ProfileScene.Band(315, 90, 40, 90), new ProfileScene.Band(45, 90, 80, 231));
    JFreeChart chart = ProfilePlot.of(scene(0, bands), SOFTWARE);
    XYPlot plot = chart.getXYPlot();

    Collection<?> boxes = ((XYLineAndShapeRenderer) plot.getRenderer()).getAnnotations();
    assertEquals(3, boxes.stream().filter(XYAnnotation.class::isInstance).count());
    assertEquals(250.0, plot.getRangeAxis().getUpperBound(), "room for the band");
    String svg = svg(chart);
    assertTrue(svg.contains(GROUP), "whose range");
    assertTrue(svg.contains("Not a diagnosis"), "cautions");
    assertTrue(svg.contains("a note of the scene"), "notes");
    assertFalse(svg(ProfilePlot.of(scene(0, List.of()), SOFTWARE)).contains(GROUP));
  }

  @Test
  void leavesALineOpenWhereThereIsNoValue() {
    ProfileScene scene =
        new ProfileScene(
            "title",
            profile(Laterality.RIGHT, angle -> angle >= 90 && angle < 100 ? Double.NaN : 100),
            List.of(),
            Optional.empty(),
            List.of(),
            "",
            List.of());
    XYDataset data = ProfilePlot.of(scene, SOFTWARE).getXYPlot().getDataset();

    assertTrue(Double.isNaN(data.getYValue(0, 192)));
    assertEquals(100.0, data.getYValue(0, 191));
  }

  @Test
  void makesTheSameBytesTwice() throws Exception {
    ProfileScene scene = scene(2, List.of(new ProfileScene.Band(0, 90, 40, 90)));
    Path a = folder.resolve("a.png");
    Path b = folder.resolve("b.png");
    PlotFile.png(a, ProfilePlot.of(scene, SOFTWARE), ProfilePlot.WIDTH, ProfilePlot.HEIGHT);
    PlotFile.png(b, ProfilePlot.of(scene, SOFTWARE), ProfilePlot.WIDTH, ProfilePlot.HEIGHT);

    assertArrayEquals(Files.readAllBytes(a), Files.readAllBytes(b));
    assertEquals(svg(ProfilePlot.of(scene, SOFTWARE)), svg(ProfilePlot.of(scene, SOFTWARE)));
    assertTrue(svg(ProfilePlot.of(scene, SOFTWARE)).contains(Cautions.LINE.substring(0, 12)));
  }

  private static float width(XYLineAndShapeRenderer renderer, int series) {
    return ((java.awt.BasicStroke) renderer.getSeriesStroke(series)).getLineWidth();
  }

  private String svg(JFreeChart chart) throws Exception {
    Path target = folder.resolve("plot.svg");
    PlotFile.svg(target, chart, ProfilePlot.WIDTH, ProfilePlot.HEIGHT);
    return Files.readString(target);
  }

  private static ProfileScene scene(int earlier, List<ProfileScene.Band> bands) {
    return new ProfileScene(
        "Patient X, right eye",
        profile(Laterality.RIGHT, angle -> 100 - 50 * nasal(angle)),
        IntStream.range(0, earlier)
            .mapToObj(
                i ->
                    new ProfileScene.Line(
                        "earlier " + i, profile(Laterality.RIGHT, angle -> 110 + i)))
            .toList(),
        Optional.of(
            new ProfileScene.Line(
                "left eye, mirrored", profile(Laterality.LEFT, angle -> 100 - 30 * nasal(angle)))),
        bands,
        bands.isEmpty() ? "" : GROUP,
        List.of("a note of the scene"));
  }

  /** Returns 1 at the nasal side, 0 at the temporal one. */
  private static double nasal(double degrees) {
    return (1 - Math.cos(Math.toRadians(degrees))) / 2;
  }

  private static CircleProfile profile(Laterality eye, DoubleUnaryOperator ofDegrees) {
    double[] values = new double[CircleProfile.SAMPLES];
    for (int i = 0; i < values.length; i++) {
      values[i] = ofDegrees.applyAsDouble(i * 360.0 / values.length);
    }
    return new CircleProfile(
        new ScanIdentity("X", "2.25.1", "2.25.2", "2.25.3", Optional.empty()),
        eye,
        new Layer(Boundary.ILM, Boundary.RNFL_GCL),
        3.46,
        new FundusPoint(0, 0),
        ProfileSource.CIRCLE_SCAN,
        AngleZero.HORIZONTAL,
        values);
  }
}

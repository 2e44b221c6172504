package org.isopach.report.plot;

import java.util.List;
import java.util.Locale;
import org.isopach.analysis.cross.SectorAgreement;
import org.isopach.analysis.stat.BlandAltman;
import org.isopach.report.Software;
import org.jfree.chart.JFreeChart;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/** Differences of somebody's sectors and ours over their mean, as {@link BlandAltmanPlot}. */
public final class CrossAgreementPlot {
  private static final int LONGEST_NAME = 64;

  private CrossAgreementPlot() {}

  /**
   * Returns the chart.
   *
   * @throws IllegalArgumentException when there are no limits of agreement
   */
  public static JFreeChart of(SectorAgreement sector, Software software) {
    BlandAltman agreement =
        sector
            .limits()
            .orElseThrow(() -> new IllegalArgumentException("no limits of " + sector.sector()));
    XYSeries right = new XYSeries("right eye");
    XYSeries left = new XYSeries("left eye");
    for (SectorAgreement.Point point : sector.points()) {
      XYSeries side =
          switch (point.laterality()) {
            case RIGHT -> right;
            case LEFT -> left;
          };
      side.add(point.meanUm(), point.differenceUm());
    }
    XYSeriesCollection data = new XYSeriesCollection();
    data.addSeries(right);
    data.addSeries(left);
    return BlandAltmanPlot.of(
        "Agreement on " + sector.layer() + ", " + sector.sector(),
        List.of("mean of theirs and ours, µm", "theirs less ours, µm"),
        data,
        agreement,
        notes(sector, agreement),
        software);
  }

  private static List<String> notes(SectorAgreement sector, BlandAltman agreement) {
    String name = sector.software().isEmpty() ? "not stated" : sector.software();
    return List.of(
        String.format(
            Locale.ROOT,
            "%d scans. Theirs: %s by %s. Limits: bias ± 1.96 SD; shaded: their 95 %% confidence"
                + " intervals.",
            agreement.n(),
            sector.kind(),
            name.substring(0, Math.min(LONGEST_NAME, name.length()))),
        "Mean thickness of a sector in µm along the A-scan. Eyes and visits of one patient are not"
            + " independent.");
  }
}

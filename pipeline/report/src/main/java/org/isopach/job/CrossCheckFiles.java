package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.SectorAgreement;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.report.Software;
import org.isopach.report.plot.CrossAgreementPlot;
import org.isopach.report.plot.PlotFile;
import org.isopach.report.table.CrossAgreementFile;
import org.isopach.report.table.CrossCheckFile;
import org.jfree.chart.JFreeChart;

/** Writes the tables and plots of a cross-check. */
final class CrossCheckFiles {
  private static final Set<String> PLOTTED = Set.of("centre", SectorGrid.TOTAL);
  private static final int WIDTH = 760;
  private static final int HEIGHT = 520;

  private final RunFolder folder;
  private final Software software;

  CrossCheckFiles(RunFolder folder, Software software) {
    this.folder = folder;
    this.software = software;
  }

  /** The centre and the whole grid have a plot each, if there are limits of agreement. */
  List<WrittenFile> write(
      JobRequest request, List<CrossLine> lines, List<SectorAgreement> agreements)
      throws IOException {
    List<WrittenFile> files = new ArrayList<>();
    Path table = folder.crosscheck();
    files.add(new WrittenFile(table, CrossCheckFile.write(table, lines)));
    Path limits = folder.crosscheckAgreement();
    files.add(new WrittenFile(limits, CrossAgreementFile.write(limits, agreements)));
    if (!request.outputs().contains(Output.PICTURES)) {
      return files;
    }
    for (int i = 0; i < agreements.size(); i++) {
      SectorAgreement one = agreements.get(i);
      if (PLOTTED.contains(one.sector()) && one.limits().isPresent()) {
        JFreeChart chart = CrossAgreementPlot.of(one, software);
        Path png = folder.crosscheckPlot(i + 1, one, "png");
        files.add(new WrittenFile(png, PlotFile.png(png, chart, WIDTH, HEIGHT)));
      }
    }
    return files;
  }
}

package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.report.Software;
import org.isopach.report.plot.BlandAltmanPlot;
import org.isopach.report.plot.PlotFile;
import org.isopach.report.table.RepeatabilityFile;
import org.isopach.report.table.RepeatabilityTree;
import org.jfree.chart.JFreeChart;

/** Writes the tables and plots about repeats. */
final class RepeatabilityFiles {
  private static final int WIDTH = 760;
  private static final int HEIGHT = 520;

  private final RunFolder folder;
  private final Software software;

  RepeatabilityFiles(RunFolder folder, Software software) {
    this.folder = folder;
    this.software = software;
  }

  /** Sectors without limits of agreement have no plot; the table says why. */
  List<WrittenFile> write(RepeatabilityRequest request, RepeatabilityStudy study)
      throws IOException {
    List<WrittenFile> files = new ArrayList<>();
    Path csv = folder.repeatability(".csv");
    files.add(new WrittenFile(csv, RepeatabilityFile.write(csv, study)));
    Path json = folder.repeatability(".json");
    files.add(new WrittenFile(json, RepeatabilityTree.write(json, study, software)));
    if (!request.job().outputs().contains(Output.PICTURES)) {
      return files;
    }
    for (SectorRepeatability sector : study.sectors()) {
      if (request.plottedLayers().contains(sector.layer())
          && request.plottedSectors().contains(sector.sector())
          && sector.agreement().value().isPresent()) {
        JFreeChart chart = BlandAltmanPlot.of(sector, software);
        Path png = folder.repeatabilityPlot(sector.layer(), sector.sector(), ".png");
        files.add(new WrittenFile(png, PlotFile.png(png, chart, WIDTH, HEIGHT)));
        Path svg = folder.repeatabilityPlot(sector.layer(), sector.sector(), ".svg");
        files.add(new WrittenFile(svg, PlotFile.svg(svg, chart, WIDTH, HEIGHT)));
      }
    }
    return files;
  }
}

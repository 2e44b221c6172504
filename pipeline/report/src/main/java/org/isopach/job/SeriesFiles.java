package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.report.Software;
import org.isopach.report.plot.PlotFile;
import org.isopach.report.plot.SeriesPlot;
import org.isopach.report.table.DryFile;
import org.isopach.report.table.ResponseFile;
import org.isopach.report.table.SeriesFile;
import org.isopach.report.table.SeriesJson;
import org.isopach.report.table.TrendFile;
import org.jfree.chart.JFreeChart;

/** Writes what belongs to the series of a run: tables and charts. */
final class SeriesFiles {
  private static final List<String> DRAWN = List.of("centre", SectorGrid.TOTAL);

  private final RunFolder folder;
  private final SeriesRequest request;
  private final Software software;

  SeriesFiles(SeriesRequest request, Software software) {
    this.folder = new RunFolder(request.job().out());
    this.request = request;
    this.software = software;
  }

  void write(List<EyeCourse> courses, RunLedger ledger, ExecutorService pool)
      throws IOException, InterruptedException {
    SeriesRules rules = request.rules();
    ledger.add(new WrittenFile(folder.series(), SeriesFile.write(folder.series(), courses)));
    ledger.add(new WrittenFile(folder.trend(), TrendFile.write(folder.trend(), courses, rules)));
    ledger.add(
        new WrittenFile(
            folder.seriesJson(), SeriesJson.write(folder.seriesJson(), courses, rules, software)));
    if (request.treatments().isPresent()) {
      ledger.add(
          new WrittenFile(
              folder.response(), ResponseFile.write(folder.response(), courses, rules)));
      ledger.add(new WrittenFile(folder.dry(), DryFile.write(folder.dry(), courses, rules)));
    }
    if (request.job().outputs().contains(Output.PICTURES)) {
      List<Callable<FileOutcome>> work = new ArrayList<>();
      courses.forEach(course -> work.addAll(plots(course)));
      ledger.add(Workers.all(pool, work));
    }
  }

  private List<Callable<FileOutcome>> plots(EyeCourse course) {
    List<Callable<FileOutcome>> work = new ArrayList<>();
    for (Layer layer : request.job().layers()) {
      List<VisitSeries> drawn =
          course.series().stream()
              .filter(one -> one.layer().equals(layer) && DRAWN.contains(one.sector()))
              .toList();
      if (request.job().pictured().contains(layer) && !drawn.isEmpty()) {
        String name = drawn.get(0).points().get(0).scan().sopUid();
        work.add(() -> png(course, drawn, name));
        work.add(() -> svg(course, drawn, name));
      }
    }
    return work;
  }

  private FileOutcome png(EyeCourse course, List<VisitSeries> drawn, String name)
      throws IOException {
    Path target = folder.seriesPlot(name, drawn.get(0).layer(), "png");
    JFreeChart chart = SeriesPlot.chart(course, drawn, software);
    return FileOutcome.written(
        target, PlotFile.png(target, chart, SeriesPlot.WIDTH, SeriesPlot.HEIGHT));
  }

  private FileOutcome svg(EyeCourse course, List<VisitSeries> drawn, String name)
      throws IOException {
    Path target = folder.seriesPlot(name, drawn.get(0).layer(), "svg");
    JFreeChart chart = SeriesPlot.chart(course, drawn, software);
    return FileOutcome.written(
        target, PlotFile.svg(target, chart, SeriesPlot.WIDTH, SeriesPlot.HEIGHT));
  }
}

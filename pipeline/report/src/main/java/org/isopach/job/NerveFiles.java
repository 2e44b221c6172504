package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.ArcTable;
import org.isopach.analysis.nerve.ArcTabulator;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;
import org.isopach.report.picture.DiscPicture;
import org.isopach.report.plot.PlotFile;
import org.isopach.report.plot.ProfilePlot;
import org.isopach.report.plot.ProfileScene;
import org.isopach.report.table.BoundaryTable;
import org.isopach.report.table.ProfileFile;
import org.jfree.chart.JFreeChart;

/** Writes what belongs to single scans of the nerve: boundaries, profile, map, plot. */
final class NerveFiles {
  private final RunFolder folder;
  private final JobRequest request;
  private final Software software;
  private final ObjectFiles objects;
  private final ExecutorService pool;
  private final boolean maps;

  /** Returns what writes a run's files of the nerve, maps included. */
  static NerveFiles of(OpenRun run, ThicknessMapWriter objects) {
    RunFolder folder = run.folder();
    return new NerveFiles(
        folder,
        run.request(),
        run.software(),
        new ObjectFiles(objects, folder, run.software()),
        run.pool(),
        true);
  }

  private NerveFiles(
      RunFolder folder,
      JobRequest request,
      Software software,
      ObjectFiles objects,
      ExecutorService pool,
      boolean maps) {
    this.maps = maps;
    this.folder = folder;
    this.request = request;
    this.software = software;
    this.objects = objects;
    this.pool = pool;
  }

  /** Returns what writes no maps, whose names are those of a macula's. */
  NerveFiles withoutMaps() {
    return new NerveFiles(folder, request, software, objects, pool, false);
  }

  /** Writes the boundaries of a scan, as soon as they are found. */
  List<FileOutcome> boundaries(NerveSighting one) throws InterruptedException {
    if (!request.outputs().contains(Output.BOUNDARIES) || one.boundaries().isEmpty()) {
      return List.of();
    }
    Path target = folder.boundaries(one.scan().identity().sopUid());
    List<Callable<FileOutcome>> work =
        List.of(
            () -> FileOutcome.written(target, BoundaryTable.write(target, one.boundaries().get())));
    return Workers.all(pool, work);
  }

  /** Writes profile and map of a scan, once its visit is known. */
  List<FileOutcome> write(NerveScan scan) throws InterruptedException {
    List<Callable<FileOutcome>> work = new ArrayList<>();
    scan.profile().ifPresent(profile -> work.add(() -> profile(scan, profile)));
    scan.sighting()
        .disc()
        .filter(disc -> maps && disc.fibres().isPresent())
        .ifPresent(disc -> work.addAll(map(scan, disc, disc.fibres().get())));
    return Workers.all(pool, work);
  }

  private FileOutcome profile(NerveScan scan, CircleProfile profile) throws IOException {
    Path target = folder.profile(scan.sighting().scan().identity().sopUid(), "csv");
    ProfileFile.Confidence confidence =
        scan.sighting().circle().orElseThrow().confidence(scan.zero());
    return FileOutcome.written(target, ProfileFile.write(target, profile, confidence));
  }

  private List<Callable<FileOutcome>> map(NerveScan scan, DiscSight disc, ThicknessMap map) {
    List<Callable<FileOutcome>> work = new ArrayList<>();
    if (request.outputs().contains(Output.PICTURES)) {
      Path target = folder.map(map.scan().sopUid(), map.layer());
      ArcTable arcs = ArcTabulator.tabulate(scan.profile().orElseThrow(), ArcSchemes.QUADRANTS);
      work.add(
          () ->
              FileOutcome.written(
                  target, DiscPicture.write(target, map, arcs, disc.opening(), software.title())));
    }
    if (request.outputs().contains(Output.OBJECTS)) {
      NerveSighting one = scan.sighting();
      work.add(() -> objects.write(one.scan(), map, one.lateralScale()));
    }
    return work;
  }

  /** Writes the plot of a profile. */
  List<FileOutcome> plot(String sopUid, ProfileScene scene) throws InterruptedException {
    if (!request.outputs().contains(Output.PICTURES)) {
      return List.of();
    }
    return Workers.all(pool, List.of(() -> png(sopUid, scene), () -> svg(sopUid, scene)));
  }

  private FileOutcome png(String sopUid, ProfileScene scene) throws IOException {
    Path target = folder.profile(sopUid, "png");
    JFreeChart chart = ProfilePlot.of(scene, software);
    return FileOutcome.written(
        target, PlotFile.png(target, chart, ProfilePlot.WIDTH, ProfilePlot.HEIGHT));
  }

  private FileOutcome svg(String sopUid, ProfileScene scene) throws IOException {
    Path target = folder.profile(sopUid, "svg");
    JFreeChart chart = ProfilePlot.of(scene, software);
    return FileOutcome.written(
        target, PlotFile.svg(target, chart, ProfilePlot.WIDTH, ProfilePlot.HEIGHT));
  }
}

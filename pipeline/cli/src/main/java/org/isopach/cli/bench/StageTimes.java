package org.isopach.cli.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.derive.MapProvenance;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.JobRequest;
import org.isopach.job.MappedLayer;
import org.isopach.job.MeasuredScan;
import org.isopach.job.ScanMeasurer;
import org.isopach.report.Software;
import org.isopach.report.picture.ThicknessPicture;
import org.isopach.report.table.BoundaryTable;

/**
 * Processor time of each stage of the job, on one thread. The stages are called one by one as the
 * job calls them; what the job does between them is not in here.
 */
final class StageTimes {
  private static final double NANOS_PER_MILLI = 1e6;
  private static final String DECODE = "decode frames";
  private static final String MEASURE = "segment (all else of measuring a scan)";
  private static final String MAPS = "maps";
  private static final String SECTORS = "sectors";

  private final ThreadMXBean thread = ManagementFactory.getThreadMXBean();
  private final Path out;
  private final Map<String, Long> nanos = new LinkedHashMap<>();
  private final ThicknessMapWriter objects = DicomWriters.thicknessMaps();
  private final MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
  private final SectorTabulator tabulator = new SectorTabulator();
  private final String title = Software.current().title();

  /** A piece of work to be timed. */
  private interface Stage<T> {
    T run() throws Exception;
  }

  private StageTimes(Path out) {
    this.out = out;
  }

  /** Returns milliseconds for each volume by stage; the folder is gone through twice. */
  static Map<String, Double> of(Path folder, Path out) throws Exception {
    Files.createDirectories(out);
    StageTimes times = new StageTimes(out);
    times.goThrough(folder);
    times.nanos.clear();
    int volumes = times.goThrough(folder);
    Map<String, Double> millis = new LinkedHashMap<>();
    times.nanos.forEach((name, sum) -> millis.put(name, sum / NANOS_PER_MILLI / volumes));
    double inside = millis.get(DECODE) + millis.get(MAPS) + millis.get(SECTORS);
    millis.compute(MEASURE, (name, whole) -> Math.max(0, whole - inside));
    return millis;
  }

  private <T> T timed(String name, Stage<T> stage) throws Exception {
    long start = thread.getCurrentThreadCpuTime();
    T result = stage.run();
    nanos.merge(name, thread.getCurrentThreadCpuTime() - start, Long::sum);
    return result;
  }

  private int goThrough(Path folder) throws Exception {
    ScanMeasurer measurer =
        ScanMeasurer.of(JobRequest.of(List.of(folder), out).onThreads(1), new InlineExecutor());
    List<OctScan> scans =
        timed("read headers, digest", () -> DicomFolder.reader().read(List.of(folder)).scans());
    for (OctScan scan : scans) {
      timed(DECODE, () -> decode(scan));
      MeasuredScan measured = timed(MEASURE, () -> measurer.measure(scan));
      for (MappedLayer layer : measured.layers()) {
        again(measured, layer);
      }
      write(measured);
    }
    return scans.size();
  }

  /** What measuring does beside decoding and segmenting, once more, to know its share. */
  private void again(MeasuredScan measured, MappedLayer layer) throws Exception {
    Layer which = layer.map().layer();
    timed(
        MAPS,
        () ->
            interpolator.interpolate(
                measured.scan(),
                measured.place().orElseThrow().path(),
                measured.boundaries().orElseThrow(),
                which,
                layer.map().centre(),
                layer.map().lattice()));
    timed(
        SECTORS,
        () ->
            tabulator.tabulate(layer.map(), layer.table().grid(), layer.table().minimumCoverage()));
  }

  private void write(MeasuredScan measured) throws Exception {
    timed(
        "boundary table",
        () -> BoundaryTable.write(out.resolve("b.csv"), measured.boundaries().orElseThrow()));
    for (MappedLayer layer : measured.layers()) {
      if (!LayerCatalogue.WHOLE_RETINA.contains(layer.map().layer())) {
        continue; // no picture and no object unless asked for
      }
      timed(
          "pictures",
          () -> ThicknessPicture.write(out.resolve("p.png"), layer.map(), layer.table(), title));
      timed(
          "thickness map objects",
          () ->
              objects.write(
                  layer.map(),
                  measured.scan(),
                  MapProvenance.of(Software.current().version(), "bench"),
                  out.resolve("o.dcm")));
    }
  }

  private static Void decode(OctScan scan) throws Exception {
    float[] picture = new float[scan.size().framePixels()];
    for (int f = 0; f < scan.size().frames(); f++) {
      scan.frames().read(f, picture);
    }
    return null;
  }
}

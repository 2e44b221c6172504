package org.isopach.cli.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.job.BaselineChoice;
import org.isopach.job.FileKind;
import org.isopach.job.FrameOutputs;
import org.isopach.job.JobRequest;
import org.isopach.job.MappedLayer;
import org.isopach.job.MeasuredScan;
import org.isopach.job.Output;
import org.isopach.job.ScanMeasurer;

/**
 * Processor time of each stage of the job, on one thread. Reading and measuring are called one by
 * one as the job calls them; writing is timed within a run, piece by piece.
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
  private final MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
  private final SectorTabulator tabulator = new SectorTabulator();

  /** A piece of work to be timed. */
  private interface Stage<T> {
    T run() throws Exception;
  }

  private StageTimes(Path out) {
    this.out = out;
  }

  /**
   * What was found.
   *
   * @param stages milliseconds for each volume by stage, of what every run does
   * @param wholeRun milliseconds for each volume of a whole run by its own threads
   * @param asked kinds of file that are written only when asked for, of a run over visits
   * @param visits how many visits there were
   */
  record Found(
      Map<String, Double> stages,
      double wholeRun,
      Map<FileKind, KindClock.Spent> asked,
      int visits) {}

  /**
   * Times the stages; everything is done twice and counted once.
   *
   * @param folder volumes
   * @param visits visits of one eye
   * @param out for what is written
   */
  static Found of(Path folder, Path visits, Path out) throws Exception {
    Files.createDirectories(out);
    StageTimes times = new StageTimes(out);
    times.goThrough(folder);
    times.nanos.clear();
    int volumes = times.goThrough(folder);
    Map<String, Double> millis = new LinkedHashMap<>();
    times.nanos.forEach((name, sum) -> millis.put(name, sum / NANOS_PER_MILLI / volumes));
    double inside = millis.get(DECODE) + millis.get(MAPS) + millis.get(SECTORS);
    millis.compute(MEASURE, (name, whole) -> Math.max(0, whole - inside));

    JobPass usual = new JobPass(1, out.resolve("usual"), Output.USUAL);
    usual.run(folder);
    KindClock clock = new KindClock();
    usual.run(folder, clock);
    double whole = clock.nanos() / NANOS_PER_MILLI / volumes;
    clock.spent().forEach((kind, spent) -> millis.put(kind.words(), spent.millis() / volumes));

    KindClock further = new KindClock();
    JobPass asking = new JobPass(out.resolve("asked"), StageTimes::everything);
    asking.run(visits);
    int count = asking.run(visits, further).run().inputs().size();
    Map<FileKind, KindClock.Spent> asked = new LinkedHashMap<>(further.spent());
    asked.keySet().removeAll(clock.spent().keySet());
    return new Found(millis, whole, asked, count);
  }

  private static JobRequest everything(JobRequest usual) {
    return new JobRequest(
        usual.inputs(),
        usual.out(),
        usual.layers(),
        Set.copyOf(usual.layers()),
        usual.grid(),
        usual.axialLengths(),
        Optional.of(BaselineChoice.FIRST),
        EnumSet.allOf(Output.class),
        new FrameOutputs(true, FrameOutputs.USUAL_OVERLAYS),
        1);
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

  private static Void decode(OctScan scan) throws Exception {
    float[] picture = new float[scan.size().framePixels()];
    for (int f = 0; f < scan.size().frames(); f++) {
      scan.frames().read(f, picture);
    }
    return null;
  }
}

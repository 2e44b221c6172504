package org.isopach.cli.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.isopach.analysis.scan.OctScan;
import org.isopach.cli.page.Markdown;
import org.isopach.job.Output;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code bench}: speed and memory of the whole job on this machine. */
@Command(
    name = "bench",
    description =
        "Writes phantom volumes of 49 x 512 x 496, measures them, and prints speed and memory"
            + " beside a pass that only decodes the same files.",
    mixinStandardHelpOptions = true)
public final class BenchMain implements Callable<Integer> {
  private static final int STAGED = 4;
  private static final int TURNS = 2;
  private static final int VISITS = 2;
  private static final int[] FRAMES = {25, 49, 97};

  @Spec private CommandSpec spec;

  @Option(
      names = "--volumes",
      paramLabel = "N",
      defaultValue = "20",
      description = "Volumes for the comparison (default: ${DEFAULT-VALUE}).")
  private int volumes;

  @Option(
      names = "--many",
      paramLabel = "N",
      defaultValue = "200",
      description =
          "Volumes for the look at memory, 12.5 MB of disk each; 0 for none (default:"
              + " ${DEFAULT-VALUE}).")
  private int many;

  @Option(
      names = "--compressed",
      paramLabel = "N",
      defaultValue = "4",
      description = "Volumes in JPEG 2000; 0 for none (default: ${DEFAULT-VALUE}).")
  private int compressed;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Threads for decoding and for the job (default: one for each processor).")
  private int threads = Runtime.getRuntime().availableProcessors();

  @Option(names = "--segmentation", description = "Only the speed of segmentation; no files.")
  private boolean segmentationOnly;

  @Option(names = "--series", description = "Only series of visits.")
  private boolean seriesOnly;

  @Option(names = "--network", description = "Only receiving, beside dcmtk's storescp.")
  private boolean networkOnly;

  @Option(names = "--out", paramLabel = "FILE", description = "Also write the page to this file.")
  private Path out;

  /** Runs the command and ends the process. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(new CommandLine(new BenchMain()).execute(args));
  }

  @Override
  public Integer call() throws Exception {
    Path folder = Files.createTempDirectory("isopach-bench");
    Thread cleaner = new Thread(() -> deleteQuietly(folder));
    Runtime.getRuntime().addShutdownHook(cleaner);
    try {
      String page = measure(folder);
      spec.commandLine().getOut().print(page);
      spec.commandLine().getOut().flush();
      if (out != null) {
        Files.writeString(out, page, StandardCharsets.UTF_8);
      }
      return 0;
    } finally {
      Runtime.getRuntime().removeShutdownHook(cleaner);
      delete(folder);
    }
  }

  private String measure(Path folder) throws Exception {
    Markdown page = new Markdown();
    page.heading(1, "Speed and memory").paragraph(preface());
    if (seriesOnly) {
      say("timing series of visits");
      SeriesSpeed.run(folder, threads, page);
      return page.toString();
    }
    if (networkOnly) {
      say("timing the network");
      NetworkSpeed.run(folder, page);
      return page.toString();
    }
    SegmentPage segmentation = segmentation(folder);
    if (!segmentationOnly) {
      job(folder).addTo(page);
      say("timing series of visits");
      SeriesSpeed.run(folder, threads, page);
    }
    segmentation.addTo(page);
    return page.toString();
  }

  private String preface() {
    return "Written by `bin/bench`; do not edit. On "
        + threads
        + " threads of a machine with "
        + Runtime.getRuntime().availableProcessors()
        + " processors. Ratios are taken within one run, since absolute figures depend on what else"
        + " the machine does.";
  }

  private SegmentPage segmentation(Path folder) throws Exception {
    say("timing segmentation");
    List<SegmentSpeed.Row> speeds = SegmentSpeed.run(FRAMES);
    say("timing one path");
    OctScan scan = SegmentSpeed.volume(FRAMES[0]);
    return new SegmentPage(
        speeds,
        SegmentSpeed.modelMillis(scan),
        RouteTrial.run(folder, scan, scan.size().frames() / 2));
  }

  private BenchPage job(Path folder) throws Exception {
    HeapWatch heap = new HeapWatch();
    DecodePass decode = new DecodePass(threads);
    JobPass job = new JobPass(threads, folder.resolve("out"), Output.USUAL);
    JobPass tablesOnly =
        new JobPass(threads, folder.resolve("tables"), EnumSet.of(Output.BOUNDARIES));
    Path plain = folder.resolve("plain");
    write(plain, volumes);
    say("comparing on " + volumes + " volumes");
    Comparison few = Comparison.run(plain, decode, job, heap, 1, TURNS);
    Comparison tables = Comparison.run(plain, decode, tablesOnly, heap, 1, TURNS);
    StageTimes.Found stages = stages(folder, plain);
    Optional<Comparison> packed = Optional.empty();
    if (compressed > 0 && Transcoder.obstacle().isEmpty()) {
      say("comparing on " + compressed + " volumes in JPEG 2000");
      Path jpeg = folder.resolve("jpeg2000");
      Transcoder.toJpeg2000(plain, jpeg, compressed);
      packed = Optional.of(Comparison.run(jpeg, decode, tablesOnly, heap, 1, TURNS));
    }
    Optional<HeapWatch.Use> use = Optional.empty();
    LiveHeap live = new LiveHeap(many);
    if (many > 0) {
      Path lots = folder.resolve("many");
      write(lots, many);
      say("measuring " + many + " volumes");
      heap.start();
      job.run(lots, live);
      use = Optional.of(heap.stop());
    }
    return new BenchPage(few, tables, stages, packed, many, use, live.grown());
  }

  private void write(Path folder, int count) throws Exception {
    say("writing " + count + " volumes");
    BenchFiles.rendered().write(folder, 0, count);
  }

  private StageTimes.Found stages(Path folder, Path plain) throws Exception {
    say("timing the stages");
    Path staged = Files.createDirectories(folder.resolve("staged"));
    List<Path> files;
    try (Stream<Path> list = Files.list(plain)) {
      files = list.sorted().limit(STAGED).toList();
    }
    for (Path file : files) {
      Files.createLink(staged.resolve(file.getFileName()), file);
    }
    Path visits = folder.resolve("staged-visits");
    BenchFiles.rendered().writeVisits(visits, VISITS);
    return StageTimes.of(staged, visits, folder.resolve("stages-out"));
  }

  private void say(String words) {
    PrintWriter err = spec.commandLine().getErr();
    err.println(words);
    err.flush();
  }

  /** When the command is interrupted, gigabytes must not be left behind. */
  private void deleteQuietly(Path folder) {
    try {
      delete(folder);
    } catch (IOException e) {
      say("left behind: " + folder + " (" + e.getMessage() + ")");
    }
  }

  private static void delete(Path folder) throws IOException {
    List<Path> all = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(folder)) {
      walk.sorted(Comparator.reverseOrder()).forEach(all::add);
    }
    for (Path path : all) {
      Files.delete(path);
    }
  }
}

package org.isopach.cli.training;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Cautions;
import org.isopach.segment.Evidence;
import org.isopach.segment.EvidenceStudy;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** The command {@code evidence}: writes what the confidence scale is fitted to. */
@Command(
    name = "evidence",
    description =
        "Segments scans of phantom eyes of every condition and writes, for some A-scans, the evidence"
            + " for each boundary that is there, and whether it lay within 2 px of the truth.",
    mixinStandardHelpOptions = true,
    footer = {"", Cautions.LINE})
public final class EvidenceMain implements Callable<Integer> {
  private static final int EVERY_ASCANS = 16;
  private static final double WITHIN_PX = 2;
  private static final int FRAMES = 5;
  private static final double SPAN_MM = 1.5;

  @Option(names = "--from", required = true, description = "First seed.")
  private long from;

  @Option(
      names = "--eyes",
      required = true,
      description = "How many eyes of each condition, or of all.")
  private int eyes;

  @Option(names = "--nerve", description = "Scans around and through the optic disc.")
  private boolean nerve;

  @Option(names = "--out", required = true, description = "The file to write.")
  private Path out;

  /** Runs the command and ends the process. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(new CommandLine(new EvidenceMain()).execute(args));
  }

  @Override
  public Integer call() throws IOException, InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(1);
    try (PrintWriter file = new PrintWriter(Files.newBufferedWriter(out, StandardCharsets.UTF_8))) {
      file.println("boundary," + terms(i -> "term" + i) + ",within");
      if (nerve) {
        EvidenceStudy study = new EvidenceStudy(pool, true);
        for (long seed = from; seed < from + eyes; seed++) {
          write(NerveExamples.scan(seed, FRAMES), study, file);
        }
      } else {
        EvidenceStudy study = new EvidenceStudy(pool, false);
        for (Condition condition : Condition.values()) {
          for (long seed = from; seed < from + eyes; seed++) {
            write(scan(condition, seed), study, file);
          }
        }
      }
      if (file.checkError()) {
        throw new IOException("could not write " + out);
      }
    } finally {
      pool.shutdown();
    }
    return 0;
  }

  private static PhantomScan scan(Condition condition, long seed) {
    ScanPlan plan = ScanPlan.raster(new ScanSize(FRAMES, 512, 496), 3.87, 6, SPAN_MM, 0);
    return PhantomScan.of(condition.parameters(seed), plan);
  }

  private static void write(PhantomScan phantom, EvidenceStudy study, PrintWriter file)
      throws InterruptedException {
    PhantomTruth truth = phantom.truth();
    study.run(
        phantom.scan(),
        (frame, ascan, depth, evidence) -> {
          double place = truth.depthPx(evidence.boundary(), frame, ascan);
          if (ascan % EVERY_ASCANS == 0 && !truth.blink(frame) && !Double.isNaN(place)) {
            file.println(row(evidence, Math.abs(depth - place) <= WITHIN_PX));
          }
        });
  }

  private static String row(Evidence evidence, boolean within) {
    return evidence.boundary().code()
        + ","
        + terms(i -> String.format(Locale.ROOT, "%.4f", evidence.term(i)))
        + ","
        + (within ? 1 : 0);
  }

  private static String terms(IntFunction<String> text) {
    List<String> all = IntStream.range(0, Evidence.TERMS).mapToObj(text).toList();
    return all.stream().collect(Collectors.joining(","));
  }
}

package org.isopach.cli.training;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Boundary;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.report.Cautions;
import org.isopach.segment.MembraneStudy;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * The command {@code membrane}: writes what the membrane's model learns from. Each picture is one
 * byte, 1 where the middle A-scan lies in the opening and 0 where it does not, then its grey values
 * row by row, a byte each, {@code round(140 * (value + 0.3))}.
 */
@Command(
    name = "membrane",
    description =
        "Finds the optic disc in scans of phantom eyes and writes small pictures of the A-scans around"
            + " its edge, each with whether Bruch's membrane is there.",
    mixinStandardHelpOptions = true,
    footer = {"", Cautions.LINE})
public final class MembraneMain implements Callable<Integer> {
  private static final float LOWEST = -0.3f;
  private static final float STEPS = 140;

  @Option(names = "--from", required = true, description = "First seed.")
  private long from;

  @Option(names = "--eyes", required = true, description = "How many eyes.")
  private int eyes;

  @Option(
      names = "--every",
      defaultValue = "3",
      description = "One of how many A-scans, at random (default: ${DEFAULT-VALUE}).")
  private int every;

  @Option(names = "--out", required = true, description = "The file to write.")
  private Path out;

  /** Runs the command and ends the process. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(new CommandLine(new MembraneMain()).execute(args));
  }

  @Override
  public Integer call() throws IOException, InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(1);
    try (DataOutputStream file =
        new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(out)))) {
      MembraneStudy study = new MembraneStudy(pool);
      for (long seed = from; seed < from + eyes; seed++) {
        write(seed, study, file);
      }
    } finally {
      pool.shutdown();
    }
    return 0;
  }

  private void write(long seed, MembraneStudy study, DataOutputStream file)
      throws InterruptedException {
    SplittableRandom random = new SplittableRandom(seed);
    PhantomScan phantom = NerveExamples.area(seed);
    study.run(
        phantom.scan(),
        (frame, ascan, patch) -> {
          if (random.nextInt(every) == 0 && !phantom.truth().blink(frame)) {
            double depth = phantom.truth().depthPx(Boundary.BM, frame, ascan);
            write(file, Double.isNaN(depth), patch);
          }
        });
  }

  private static void write(DataOutputStream file, boolean open, float[] patch) {
    try {
      file.writeByte(open ? 1 : 0);
      for (float value : patch) {
        file.writeByte(Math.max(0, Math.min(255, Math.round((value - LOWEST) * STEPS))));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

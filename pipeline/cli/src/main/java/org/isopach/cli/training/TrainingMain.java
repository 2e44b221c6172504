package org.isopach.cli.training;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Cautions;
import org.isopach.segment.TissueFrames;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueGrid;
import org.isopach.segment.tissue.TissuePicture;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** The command {@code training}: writes what the tissue model learns from. */
@Command(
    name = "training",
    description =
        "Renders frames of phantom eyes, sick and healthy, and writes each as the tissue model sees"
            + " it, with the two tissues that fill most of every cell.",
    mixinStandardHelpOptions = true,
    footer = {"", Cautions.LINE})
public final class TrainingMain implements Callable<Integer> {
  private static final double[] AXIAL_MICROMETRES = {3.87, 3.87, 3.2, 2.6};
  private static final int[] DEPTHS = {496, 496, 640, 768};
  private static final double[] LENGTH_MM = {6, 8.7, 6, 9};
  private static final int[] ASCANS = {512, 768, 512, 768};
  private static final int EYES_AT_A_TIME = 8;
  private static final double LOWEST = -0.3;
  private static final double STEPS_PER_UNIT = 140;

  @Option(names = "--from", required = true, description = "First seed.")
  private long from;

  @Option(names = "--eyes", required = true, description = "How many eyes, one for each seed.")
  private int eyes;

  @Option(names = "--frames", defaultValue = "7", description = "Frames of each eye.")
  private int frames;

  @Option(
      names = "--conditions",
      description = "Eyes of one condition after the other, instead of mixtures.")
  private boolean conditions;

  @Option(names = "--nerve", description = "Frames around and through the optic disc.")
  private boolean nerve;

  @Option(names = "--out", required = true, description = "The file to write.")
  private Path out;

  /** Runs the command and ends the process. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(new CommandLine(new TrainingMain()).execute(args));
  }

  @Override
  public Integer call() throws IOException {
    try (DataOutputStream file =
        new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(out), 1 << 20))) {
      file.writeUTF(
          List.of(Tissue.values()).stream().map(Enum::name).collect(Collectors.joining(",")));
      for (long first = from; first < from + eyes; first += EYES_AT_A_TIME) {
        List<List<byte[]>> some =
            LongStream.range(first, Math.min(first + EYES_AT_A_TIME, from + eyes))
                .parallel()
                .mapToObj(this::records)
                .toList();
        for (List<byte[]> records : some) {
          for (byte[] record : records) {
            file.write(record);
          }
        }
      }
    }
    return 0;
  }

  private List<byte[]> records(long seed) {
    PhantomScan phantom = nerve ? NerveExamples.scan(seed, frames) : scan(seed);
    OctScan scan = phantom.scan();
    TissueFrames pictures = new TissueFrames(scan);
    TrueTissue truth = new TrueTissue(phantom.truth(), pictures.grid());
    return IntStream.range(0, phantom.scan().size().frames())
        .filter(frame -> !phantom.truth().blink(frame))
        .mapToObj(frame -> record(pictures, truth, frame))
        .toList();
  }

  private PhantomScan scan(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int kind = random.nextInt(LENGTH_MM.length);
    double span = 1 + 5 * random.nextDouble();
    double angle = random.nextInt(4) == 0 ? 90 : 0;
    ScanPlan plan =
        ScanPlan.raster(
            new ScanSize(frames, ASCANS[kind], DEPTHS[kind]),
            AXIAL_MICROMETRES[kind],
            LENGTH_MM[kind],
            span,
            angle);
    return PhantomScan.of(parameters(seed, random), plan);
  }

  private PhantomParameters parameters(long seed, SplittableRandom random) {
    if (conditions) {
      Condition[] all = Condition.values();
      return all[(int) Math.floorMod(seed, (long) all.length)].parameters(seed);
    }
    return random.nextInt(5) == 0 ? PhantomParameters.draw(seed) : PhantomParameters.drawSick(seed);
  }

  private static byte[] record(TissueFrames pictures, TrueTissue truth, int frame) {
    TissueGrid grid = pictures.grid();
    TissuePicture picture;
    try {
      picture = pictures.picture(frame);
    } catch (FrameReadException e) {
      throw new IllegalStateException(e);
    }
    float[] shares = truth.shares(frame);
    int n = Tissue.values().length;
    int cells = grid.cells();
    byte[] record = new byte[4 + 4 * cells];
    record[0] = (byte) (grid.rows() >> 8);
    record[1] = (byte) grid.rows();
    record[2] = (byte) (grid.columns() >> 8);
    record[3] = (byte) grid.columns();
    for (int i = 0; i < cells; i++) {
      float value = picture.value(i / grid.columns(), i % grid.columns());
      int first = largest(shares, i * n, n, -1);
      int second = largest(shares, i * n, n, first);
      float both = shares[i * n + first] + shares[i * n + second];
      record[4 + i] = (byte) Math.round((value - LOWEST) * STEPS_PER_UNIT);
      record[4 + cells + i] = (byte) first;
      record[4 + 2 * cells + i] = (byte) second;
      record[4 + 3 * cells + i] = (byte) Math.round(255 * shares[i * n + first] / both);
    }
    return record;
  }

  private static int largest(float[] shares, int from, int n, int except) {
    int best = except == 0 ? 1 : 0;
    for (int t = 0; t < n; t++) {
      if (t != except && shares[from + t] > shares[from + best]) {
        best = t;
      }
    }
    return best;
  }
}

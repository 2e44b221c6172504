package org.isopach.cli.bench;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.PathStudy;

/**
 * Our search for a cheapest path beside scikit-image's, one after the other on the same costs. Both
 * sum the costs of the cells that a path visits. Ours goes from column to column and moves by at
 * most one row; scikit-image's may go in all eight directions, so that its sum is the least of all.
 */
final class RouteTrial {
  private static final int WARM = 200;
  private static final int REPEATS = 20;
  private static final int THEIR_REPEATS = 9;
  private static final int WIDE_STEP = 8;

  /** What the rows of costs as the segmentation has them are called, behind the boundary. */
  static final String FROM_TISSUE = ", from tissue";

  private static final double NANOS_PER_MILLI = 1e6;
  private static final List<String> INTERPRETERS = List.of("/usr/bin/python3", "python3");

  private final Path folder;
  private final PathStudy study;

  /**
   * One picture of costs.
   *
   * @param what the picture
   * @param size columns by rows
   * @param ourMillis least time of our search
   * @param wideMillis the same with moves of up to 8 rows, as the segmentation has it
   * @param ourCost sum over our path
   * @param theirMillis least time of {@code route_through_array}
   * @param theirCost sum over its path
   * @param forwardMillis least time of scikit-image with our moves only
   * @param forwardCost sum over that path
   */
  record Row(
      String what,
      String size,
      double ourMillis,
      double wideMillis,
      double ourCost,
      double theirMillis,
      double theirCost,
      double forwardMillis,
      double forwardCost) {
    /** Returns how many times faster ours is. */
    double ratio() {
      return theirMillis / ourMillis;
    }

    /** Returns by which share ours costs more. */
    double excess() {
      return ourCost / theirCost - 1;
    }
  }

  private RouteTrial(Path folder, OctScan scan, int frame) throws FrameReadException {
    this.folder = Objects.requireNonNull(folder, "folder");
    this.study = PathStudy.of(scan, frame);
  }

  /**
   * Compares on one frame; empty when scikit-image is missing.
   *
   * @param folder for files that go between the programs
   */
  static Optional<List<Row>> run(Path folder, OctScan scan, int frame)
      throws IOException, InterruptedException, FrameReadException {
    Optional<String> python = interpreter(folder);
    if (python.isEmpty()) {
      return Optional.empty();
    }
    RouteTrial trial = new RouteTrial(folder, scan, frame);
    List<Row> rows = new ArrayList<>();
    for (Boundary boundary : List.of(Boundary.ILM, Boundary.IPL_INL, Boundary.EZ, Boundary.BM)) {
      float[] costs = trial.study.costs(boundary);
      String what = boundary.code() + FROM_TISSUE;
      rows.add(trial.row(python.get(), what, costs, trial.study.columns(), trial.study.rows()));
    }
    int ascans = scan.size().ascans();
    float[] costs = EdgeCosts.of(scan, frame);
    rows.add(trial.row(python.get(), "ILM, whole frame", costs, ascans, scan.size().depths()));
    return Optional.of(rows);
  }

  private static Optional<String> interpreter(Path folder) throws InterruptedException {
    for (String name : INTERPRETERS) {
      if (hasScikitImage(name, folder)) {
        return Optional.of(name);
      }
    }
    return Optional.empty();
  }

  private static boolean hasScikitImage(String python, Path folder) throws InterruptedException {
    try {
      return new ProcessBuilder(python, "-c", "import skimage.graph")
              .redirectErrorStream(true)
              .redirectOutput(folder.resolve("python.txt").toFile())
              .start()
              .waitFor()
          == 0;
    } catch (IOException e) {
      return false; // There is no such program.
    }
  }

  private Row row(String python, String what, float[] costs, int columns, int rows)
      throws IOException, InterruptedException {
    int[] path = study.cheapest(costs, columns, rows, 1);
    double total = 0;
    for (int c = 0; c < columns; c++) {
      total += costs[c * rows + path[c]];
    }
    double[][] theirs = theirs(python, costs, columns, rows);
    return new Row(
        what,
        columns + " x " + rows,
        millis(costs, columns, rows, 1),
        millis(costs, columns, rows, WIDE_STEP),
        total,
        theirs[0][0],
        theirs[0][1],
        theirs[1][0],
        theirs[1][1]);
  }

  private double millis(float[] costs, int columns, int rows, int step) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < WARM + REPEATS; i++) {
      long start = System.nanoTime();
      int[] path = study.cheapest(costs, columns, rows, step);
      double millis = (System.nanoTime() - start) / NANOS_PER_MILLI;
      // The path is looked at, so that no compiler can leave the search out.
      least = i < WARM || path.length != columns ? least : Math.min(least, millis);
    }
    return least;
  }

  /** Returns milliseconds and cost, for all directions and for ours. */
  private double[][] theirs(String python, float[] costs, int columns, int rows)
      throws IOException, InterruptedException {
    Path script = folder.resolve("route.py");
    try (InputStream in = RouteTrial.class.getResourceAsStream("route.py")) {
      Files.write(script, Objects.requireNonNull(in, "route.py").readAllBytes());
    }
    ByteBuffer bytes = ByteBuffer.allocate(costs.length * Float.BYTES);
    bytes.order(ByteOrder.nativeOrder()).asFloatBuffer().put(costs);
    Path file = folder.resolve("costs.f32");
    Files.write(file, bytes.array());
    Path answer = folder.resolve("answer.txt");
    int code =
        new ProcessBuilder(
                python,
                script.toString(),
                file.toString(),
                Integer.toString(columns),
                Integer.toString(rows),
                Integer.toString(THEIR_REPEATS))
            .redirectOutput(answer.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start()
            .waitFor();
    if (code != 0) {
      throw new IllegalStateException("scikit-image ended with " + code);
    }
    return numbers(Files.readAllLines(answer, StandardCharsets.UTF_8));
  }

  private static double[][] numbers(List<String> lines) {
    double[][] numbers = new double[2][];
    for (int i = 0; i < 2; i++) {
      String[] words = lines.get(i).split(" ", -1);
      numbers[i] = new double[] {Double.parseDouble(words[1]), Double.parseDouble(words[2])};
    }
    return numbers;
  }
}

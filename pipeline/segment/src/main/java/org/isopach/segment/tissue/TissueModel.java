package org.isopach.segment.tissue;

import ai.onnxruntime.OnnxTensor;
import ai.onnxruntime.OrtEnvironment;
import ai.onnxruntime.OrtException;
import ai.onnxruntime.OrtSession;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.FloatBuffer;
import java.util.Map;

/**
 * The trained model that tells tissues apart, run by ONNX Runtime on the processor, one thread a
 * call. What it was trained on and how good it is stands in docs/model-card.md. Safe for use by
 * several threads.
 */
public final class TissueModel {
  private static final String MACULA = "tissue.onnx";
  private static final String NERVE = "nerve.onnx";
  private static final int ROW_MULTIPLE = 16;
  private static final int COLUMN_MULTIPLE = 32;
  private static final int OUTPUT_STEP = 2;

  private static TissueModel shipped;
  private static TissueModel nerve;

  private final OrtEnvironment environment;
  private final OrtSession session;

  private TissueModel(byte[] model) throws OrtException {
    this.environment = OrtEnvironment.getEnvironment();
    // The runtime's builds for one system report their use by default; nothing leaves this machine.
    environment.setTelemetry(false);
    try (OrtSession.SessionOptions options = new OrtSession.SessionOptions()) {
      options.setIntraOpNumThreads(1);
      options.setInterOpNumThreads(1);
      this.session = environment.createSession(model, options);
    }
  }

  /**
   * Returns the model that the program ships with, loaded at the first call.
   *
   * @throws IllegalStateException when it cannot run here, for example because ONNX Runtime has no
   *     native code for this system
   */
  public static synchronized TissueModel shipped() {
    if (shipped == null) {
      shipped = load(MACULA);
    }
    return shipped;
  }

  /**
   * Returns the model for scans of the optic nerve, which was trained further on frames around and
   * through the disc; loaded at the first call.
   *
   * @throws IllegalStateException as {@link #shipped()}
   */
  public static synchronized TissueModel nerve() {
    if (nerve == null) {
      nerve = load(NERVE);
    }
    return nerve;
  }

  private static TissueModel load(String resource) {
    try (InputStream in = TissueModel.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("the tissue model is missing: " + resource);
      }
      return new TissueModel(in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (OrtException e) {
      throw new IllegalStateException("the tissue model cannot be loaded", e);
    } catch (LinkageError e) {
      throw new IllegalStateException("ONNX Runtime has no native code for this system", e);
    }
  }

  /** Returns the probabilities of the tissues in a frame. */
  public TissueMap look(TissuePicture picture) {
    TissueGrid grid = picture.grid();
    int rows = roundedUp(grid.rows(), ROW_MULTIPLE);
    int columns = roundedUp(grid.columns(), COLUMN_MULTIPLE);
    float[] padded = padded(picture, rows, columns);
    long[] shape = {1, 1, rows, columns};
    try (OnnxTensor input = OnnxTensor.createTensor(environment, FloatBuffer.wrap(padded), shape);
        OrtSession.Result result = session.run(Map.of("picture", input))) {
      OnnxTensor output = (OnnxTensor) result.get(0);
      int across = columns / OUTPUT_STEP;
      byte[] probabilities = new byte[Tissue.values().length * rows * across];
      output.getByteBuffer().get(probabilities);
      return new TissueMap(grid, probabilities, across, rows);
    } catch (OrtException e) {
      throw new IllegalStateException("the tissue model failed", e);
    }
  }

  /** Dark below the last row, mirrored behind the last column. */
  private static float[] padded(TissuePicture picture, int rows, int columns) {
    TissueGrid grid = picture.grid();
    float[] padded = new float[rows * columns];
    for (int r = 0; r < grid.rows(); r++) {
      int at = r * columns;
      picture.copyRow(r, padded, at);
      for (int c = grid.columns(); c < columns; c++) {
        int mirrored = Math.floorMod(2 * (grid.columns() - 1) - c, grid.columns());
        padded[at + c] = padded[at + mirrored];
      }
    }
    return padded;
  }

  private static int roundedUp(int value, int multiple) {
    return (value + multiple - 1) / multiple * multiple;
  }
}

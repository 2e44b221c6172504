package org.isopach.segment.tissue;

/**
 * The trained model that tells tissues apart, run by ONNX Runtime on the processor, one thread a
 * call. What it was trained on and how good it is stands in docs/model-card.md. Safe for use by
 * several threads.
 */
public final class TissueModel {
  private static final String MACULA = "tissue.onnx";
  private static final String NERVE = "nerve.onnx";
  private static final String INPUT = "picture";
  private static final int ROW_MULTIPLE = 16;
  private static final int COLUMN_MULTIPLE = 32;
  private static final int OUTPUT_STEP = 2;

  private static TissueModel shipped;
  private static TissueModel nerve;

  private final OnnxModel model;

  private TissueModel(OnnxModel model) {
    this.model = model;
  }

  /**
   * Returns the model that the program ships with, loaded at the first call.
   *
   * @throws IllegalStateException when it cannot run here, for example because ONNX Runtime has no
   *     native code for this system
   */
  public static synchronized TissueModel shipped() {
    if (shipped == null) {
      shipped = new TissueModel(OnnxModel.load(MACULA, INPUT));
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
      nerve = new TissueModel(OnnxModel.load(NERVE, INPUT));
    }
    return nerve;
  }

  /** Returns the probabilities of the tissues in a frame. */
  public TissueMap look(TissuePicture picture) {
    TissueGrid grid = picture.grid();
    int rows = roundedUp(grid.rows(), ROW_MULTIPLE);
    int columns = roundedUp(grid.columns(), COLUMN_MULTIPLE);
    float[] padded = padded(picture, rows, columns);
    long[] shape = {1, 1, rows, columns};
    int across = columns / OUTPUT_STEP;
    byte[] probabilities = new byte[Tissue.values().length * rows * across];
    model.run(padded, shape, output -> output.get(probabilities));
    return new TissueMap(grid, probabilities, across, rows);
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

package org.isopach.segment.tissue;

import java.nio.ByteOrder;

/**
 * The trained model that tells whether Bruch's membrane is there in the middle of a small picture
 * at full resolution. What it was trained on stands in docs/model-card.md. Safe for use by several
 * threads.
 */
public final class MembraneModel {
  /** Rows of a picture, {@link #ROW_MICROMETRES} apart. */
  public static final int ROWS = 28;

  /** Row in which the membrane lies or would lie. */
  public static final int MEMBRANE_ROW = 12;

  /** Distance of the rows in µm. */
  public static final double ROW_MICROMETRES = 4;

  /** Columns of a picture, {@link #COLUMN_MICROMETRES} apart. */
  public static final int COLUMNS = 13;

  /** Distance of the columns in µm. */
  public static final double COLUMN_MICROMETRES = 10;

  /** Values of a picture. */
  public static final int VALUES = ROWS * COLUMNS;

  private static final int AT_ONCE = 512;

  private static MembraneModel shipped;

  private final OnnxModel model;

  private MembraneModel(OnnxModel model) {
    this.model = model;
  }

  /**
   * Returns the model that the program ships with, loaded at the first call.
   *
   * @throws IllegalStateException when it cannot run here
   */
  public static synchronized MembraneModel shipped() {
    if (shipped == null) {
      shipped = new MembraneModel(OnnxModel.load("membrane.onnx", "patch"));
    }
    return shipped;
  }

  /**
   * Returns for each picture how likely its middle column lies in the opening, from 0 to 1.
   *
   * @param patches grey values one picture after the other, row by row, scaled so that the frame's
   *     dark is 0 and its bright 1
   */
  public float[] openShares(float[] patches) {
    int count = patches.length / VALUES;
    float[] shares = new float[count];
    for (int first = 0; first < count; first += AT_ONCE) {
      int from = first;
      int n = Math.min(AT_ONCE, count - first);
      float[] some = new float[n * VALUES];
      System.arraycopy(patches, from * VALUES, some, 0, some.length);
      model.run(
          some,
          new long[] {n, 1, ROWS, COLUMNS},
          output -> output.order(ByteOrder.nativeOrder()).asFloatBuffer().get(shares, from, n));
    }
    return shares;
  }
}

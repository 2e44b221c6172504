package org.isopach.segment;

import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.tissue.TissueGrid;
import org.isopach.segment.tissue.TissuePicture;

/**
 * The frames of a scan as the tissue model sees them: decoded, margins filled, averaged and scaled.
 * For making training data in exactly the way that measuring goes.
 */
public final class TissueFrames {
  private final OctScan scan;
  private final TissueGrid grid;
  private final FrameConditioner conditioner;
  private final float[] pixels;

  /** Makes a reader of a scan's frames; for one thread. */
  public TissueFrames(OctScan scan) {
    this.scan = scan;
    this.grid = TissueGrid.of(scan.size(), scan.axial(), RetinaSegmenter.ascanMicrometres(scan));
    this.conditioner =
        new FrameConditioner(scan.size().ascans(), scan.size().depths(), scan.grey());
    this.pixels = new float[scan.size().framePixels()];
  }

  /** Returns the shape of the pictures. */
  public TissueGrid grid() {
    return grid;
  }

  /**
   * Returns the picture of a frame.
   *
   * @throws FrameReadException when the frame cannot be decoded
   */
  public TissuePicture picture(int frame) throws FrameReadException {
    scan.frames().read(frame, pixels);
    conditioner.clean(pixels);
    return TissuePicture.of(pixels, scan.size().ascans(), scan.size().depths(), grid);
  }
}

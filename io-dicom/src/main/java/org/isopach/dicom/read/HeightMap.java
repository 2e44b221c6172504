package org.isopach.dicom.read;

import java.util.List;
import java.util.Objects;
import org.isopach.dicom.data.Code;

/**
 * One surface of a Height Map Segmentation, whoever wrote it. Immutable.
 *
 * <p>Shape {@code (frames, ascans)} of the scan it was derived from.
 */
public final class HeightMap {
  private final Code surface;
  private final List<String> sources;
  private final int frames;
  private final int ascans;
  private final float[] rows;

  HeightMap(Code surface, List<String> sources, int frames, int ascans, float[] rows) {
    this.surface = Objects.requireNonNull(surface, "surface");
    this.sources = List.copyOf(sources);
    this.frames = frames;
    this.ascans = ascans;
    this.rows = rows.clone();
  }

  /** Returns what the surface is (CID 4273). */
  public Code surface() {
    return surface;
  }

  /** Returns the SOP Instance UIDs of the images it was derived from. */
  public List<String> sources() {
    return sources;
  }

  /** Returns the number of frames of the scan. */
  public int frames() {
    return frames;
  }

  /** Returns the number of A-scans in each frame. */
  public int ascans() {
    return ascans;
  }

  /**
   * Returns where the surface lies in an A-scan, in pixels from the top of the pixel matrix as the
   * object has it: half a pixel more than our depths; NaN where there is none.
   */
  public float rowsFromTop(int frame, int ascan) {
    Objects.checkIndex(frame, frames);
    Objects.checkIndex(ascan, ascans);
    return rows[frame * ascans + ascan];
  }
}

package org.isopach.job;

/**
 * What is written of single frames; nothing unless asked for.
 *
 * @param regions whether label images of all frames are written
 * @param overlays the most frames of a scan to be drawn with what was found; 0 for none
 */
public record FrameOutputs(boolean regions, int overlays) {
  /** Nothing of single frames. */
  public static final FrameOutputs NONE = new FrameOutputs(false, 0);

  /** The frames drawn when nothing else is said. */
  public static final int USUAL_OVERLAYS = 5;

  /** As many frames as there are. */
  public static final int ALL_FRAMES = Integer.MAX_VALUE;

  public FrameOutputs {
    if (overlays < 0) {
      throw new IllegalArgumentException("overlays must be at least 0, was " + overlays);
    }
  }
}

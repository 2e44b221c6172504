package org.isopach.dicom.derive;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;

/**
 * The frames of a segmentation: for each kind in its order, the scan's frames that have voxels of
 * it.
 */
final class RegionFrames {
  /**
   * One frame.
   *
   * @param segment its segment's number, from 1
   * @param frame of the scan, from 0
   */
  record Place(int segment, RegionKind kind, int frame) {}

  private final RegionLabels labels;
  private final List<RegionKind> kinds = new ArrayList<>();
  private final List<Place> places = new ArrayList<>();

  RegionFrames(RegionLabels labels) {
    this.labels = labels;
    for (RegionKind kind : labels.searched()) {
      List<Integer> frames = framesOf(kind);
      if (!frames.isEmpty()) {
        kinds.add(kind);
        frames.forEach(frame -> places.add(new Place(kinds.size(), kind, frame)));
      }
    }
  }

  /** Returns the kinds that have a voxel, in the order of their segments. */
  List<RegionKind> kinds() {
    return kinds;
  }

  List<Place> places() {
    return places;
  }

  /** Returns the bytes of Pixel Data, or -1 when they are too many for one array. */
  long bytes() {
    long bits = (long) places.size() * labels.size().framePixels();
    long bytes = (bits + 7) / 8;
    return bytes > Integer.MAX_VALUE - 16 ? -1 : bytes;
  }

  /**
   * Returns one bit for a voxel, frame by frame, row by row, the first in the lowest bit of its
   * byte; frames follow on without filling (DICOM PS3.5, 8.1.1 and annex D).
   */
  byte[] bits() {
    byte[] packed = new byte[Math.toIntExact(bytes())];
    int pixels = labels.size().framePixels();
    long at = 0;
    for (Place place : places) {
      byte[] frame = labels.frame(place.frame());
      for (int i = 0; i < pixels; i++, at++) {
        if (frame[i] == place.kind().label()) {
          packed[(int) (at >>> 3)] |= (byte) (1 << (at & 7));
        }
      }
    }
    return packed;
  }

  private List<Integer> framesOf(RegionKind kind) {
    List<Integer> frames = new ArrayList<>();
    for (int f = 0; f < labels.size().frames(); f++) {
      if (labels.any(f) && has(labels.frame(f), kind)) {
        frames.add(f);
      }
    }
    return frames;
  }

  private static boolean has(byte[] frame, RegionKind kind) {
    for (byte label : frame) {
      if (label == kind.label()) {
        return true;
      }
    }
    return false;
  }
}

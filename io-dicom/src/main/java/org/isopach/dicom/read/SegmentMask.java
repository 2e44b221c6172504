package org.isopach.dicom.read;

import java.util.BitSet;
import java.util.Objects;
import org.isopach.dicom.data.Code;

/**
 * The pixels of one frame of a scan that belong to one segment. Immutable.
 *
 * <p>Shape {@code (depths, ascans)}.
 */
public final class SegmentMask {
  private final Code type;
  private final String reading;
  private final String sourceUid;
  private final int frame;
  private final int depths;
  private final int ascans;
  private final BitSet inside;

  SegmentMask(
      Code type,
      String reading,
      String sourceUid,
      int frame,
      int depths,
      int ascans,
      BitSet inside) {
    this.type = Objects.requireNonNull(type, "type");
    this.reading = Objects.requireNonNull(reading, "reading");
    this.sourceUid = Objects.requireNonNull(sourceUid, "sourceUid");
    this.frame = frame;
    this.depths = depths;
    this.ascans = ascans;
    this.inside = (BitSet) inside.clone();
  }

  /** Returns the mask of a segment that has no frame in a scan. */
  static SegmentMask none(Code type, String reading, String sourceUid, int depths, int ascans) {
    return new SegmentMask(type, reading, sourceUid, -1, depths, ascans, new BitSet());
  }

  /** Returns what the segment is. */
  public Code type() {
    return type;
  }

  /** Returns how pixels of fractions were read, in words; empty where the object has a mask. */
  public String reading() {
    return reading;
  }

  /** Returns the SOP Instance UID of the scan. */
  public String sourceUid() {
    return sourceUid;
  }

  /** Returns the scan's frame, counted from 0; -1 for a segment that has none in the scan. */
  public int frame() {
    return frame;
  }

  /** Returns the number of depths. */
  public int depths() {
    return depths;
  }

  /** Returns the number of A-scans. */
  public int ascans() {
    return ascans;
  }

  /** Returns whether a pixel belongs to the segment. */
  public boolean contains(int depth, int ascan) {
    Objects.checkIndex(depth, depths);
    Objects.checkIndex(ascan, ascans);
    return inside.get(depth * ascans + ascan);
  }
}

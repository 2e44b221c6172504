package org.isopach.analysis.region;

import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.isopach.analysis.scan.ScanSize;

/**
 * Which voxels of a scan belong to which kind of region, one label to a voxel. Immutable.
 *
 * <p>Shape {@code (frames, depths, ascans)}; within a frame the index is {@code depth * ascans +
 * ascan}, as in a frame's pixels. 0 is no region, else {@link RegionKind#label()}. Of a frame only
 * the rows from its first to its last labelled one are held, and nothing of a frame without any.
 *
 * <p>Kinds nobody looked for and frames nobody looked at are told from those where nothing was
 * found: see {@link #searched()} and {@link #searched(int)}.
 */
public final class RegionLabels {
  private final ScanSize size;
  private final Set<RegionKind> kinds;
  private final BitSet searchedFrames;
  private final Strip[] strips;

  /** The labelled rows of a frame: {@code labels} begins at the row {@code firstDepth}. */
  private record Strip(int firstDepth, Rows rows) {}

  private RegionLabels(
      ScanSize size, Set<RegionKind> kinds, BitSet searchedFrames, Strip[] strips) {
    this.size = size;
    this.kinds = kinds;
    this.searchedFrames = searchedFrames;
    this.strips = strips;
  }

  /** Returns labels of a scan in which no kind was looked for in any frame. */
  public static RegionLabels none(ScanSize size) {
    return new RegionLabels(size, Set.of(), new BitSet(), new Strip[size.frames()]);
  }

  /** Returns a builder for a scan in which some kinds are looked for. */
  public static Builder builder(ScanSize size, Set<RegionKind> kinds) {
    return new Builder(size, kinds);
  }

  /** Returns the scan's shape. */
  public ScanSize size() {
    return size;
  }

  /** Returns the kinds that were looked for, in the order of the enumeration. */
  public Set<RegionKind> searched() {
    return kinds;
  }

  /** Returns whether a frame was looked at. */
  public boolean searched(int frame) {
    return searchedFrames.get(Objects.checkIndex(frame, size.frames()));
  }

  /** Returns whether no voxel has a label. */
  public boolean isEmpty() {
    return Arrays.stream(strips).allMatch(Objects::isNull);
  }

  /** Returns whether any voxel of a frame has a label. */
  public boolean any(int frame) {
    return strips[Objects.checkIndex(frame, size.frames())] != null;
  }

  /** Returns the first depth of a frame at which a voxel has a label; the frame's end for none. */
  public int firstDepth(int frame) {
    return any(frame) ? strips[frame].firstDepth : size.depths();
  }

  /** Returns the depth after the last one of a frame at which a voxel has a label; 0 for none. */
  public int endDepth(int frame) {
    return any(frame) ? strips[frame].firstDepth + strips[frame].rows.count(size.ascans()) : 0;
  }

  /** Returns a voxel's label, 0 to 4. */
  public byte label(int frame, int depth, int ascan) {
    Objects.checkIndex(depth, size.depths());
    Objects.checkIndex(ascan, size.ascans());
    if (depth < firstDepth(frame) || depth >= endDepth(frame)) {
      return 0;
    }
    Strip strip = strips[frame];
    return strip.rows.labels[(depth - strip.firstDepth) * size.ascans() + ascan];
  }

  /** Returns a voxel's kind, or empty where there is no region. */
  public Optional<RegionKind> kind(int frame, int depth, int ascan) {
    return RegionKind.ofLabel(label(frame, depth, ascan));
  }

  /** Returns a new array with the labels of a whole frame, index {@code depth * ascans + ascan}. */
  public byte[] frame(int frame) {
    byte[] whole = new byte[size.framePixels()];
    if (any(frame)) {
      byte[] rows = strips[frame].rows.labels;
      System.arraycopy(rows, 0, whole, strips[frame].firstDepth * size.ascans(), rows.length);
    }
    return whole;
  }

  /** Returns these labels with the A-scans of every frame counted from the other end. */
  public RegionLabels mirrored() {
    Strip[] turned = new Strip[strips.length];
    for (int f = 0; f < strips.length; f++) {
      if (strips[f] != null) {
        turned[f] = new Strip(strips[f].firstDepth, strips[f].rows.mirrored(size.ascans()));
      }
    }
    return new RegionLabels(size, kinds, searchedFrames, turned);
  }

  /** Some rows of labels; never changed once made. */
  private static final class Rows {
    private final byte[] labels;

    Rows(byte[] labels) {
      this.labels = labels;
    }

    int count(int ascans) {
      return labels.length / ascans;
    }

    Rows mirrored(int ascans) {
      byte[] turned = new byte[labels.length];
      for (int row = 0; row < labels.length; row += ascans) {
        for (int a = 0; a < ascans; a++) {
          turned[row + a] = labels[row + ascans - 1 - a];
        }
      }
      return new Rows(turned);
    }
  }

  /** Collects the labels frame by frame; different frames may be set by different threads. */
  public static final class Builder {
    private final ScanSize size;
    private final Set<RegionKind> kinds;
    private final AtomicReferenceArray<Optional<Strip>> frames;

    private Builder(ScanSize size, Set<RegionKind> kinds) {
      this.size = Objects.requireNonNull(size, "size");
      Set<RegionKind> copy = EnumSet.noneOf(RegionKind.class);
      copy.addAll(kinds);
      this.kinds = Collections.unmodifiableSet(copy);
      this.frames = new AtomicReferenceArray<>(size.frames());
    }

    /**
     * Sets the labels of a frame that was looked at; a frame never set was not.
     *
     * @param labels index {@code depth * ascans + ascan}, all 0 when nothing was found; not kept
     * @throws IllegalArgumentException when the length does not fit, or a label is of a kind that
     *     is not looked for
     */
    public void set(int frame, byte[] labels) {
      if (labels.length != size.framePixels()) {
        throw new IllegalArgumentException(
            "expected " + size.framePixels() + " labels, had " + labels.length);
      }
      int first = labels.length;
      int last = -1;
      for (int i = 0; i < labels.length; i++) {
        if (labels[i] != 0) {
          check(labels[i], frame);
          first = Math.min(first, i);
          last = i;
        }
      }
      frames.set(frame, strip(labels, first, last));
    }

    private Optional<Strip> strip(byte[] labels, int first, int last) {
      if (last < 0) {
        return Optional.empty();
      }
      int ascans = size.ascans();
      int from = first / ascans;
      int end = last / ascans + 1;
      return Optional.of(
          new Strip(from, new Rows(Arrays.copyOfRange(labels, from * ascans, end * ascans))));
    }

    private void check(byte label, int frame) {
      if (RegionKind.ofLabel(label).filter(kinds::contains).isEmpty()) {
        throw new IllegalArgumentException(
            "label " + label + " in frame " + frame + " is of no kind looked for");
      }
    }

    /** Returns what was set so far. */
    public RegionLabels build() {
      Strip[] strips = new Strip[size.frames()];
      BitSet searched = new BitSet(size.frames());
      for (int f = 0; f < strips.length; f++) {
        Optional<Strip> strip = frames.get(f);
        if (strip != null) {
          searched.set(f);
          strips[f] = strip.orElse(null);
        }
      }
      return new RegionLabels(size, kinds, searched, strips);
    }
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.cross.VoxelOverlap;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.read.SegmentMask;

/**
 * Sets segments beside our regions, voxel by voxel and as volumes. Both volumes are reckoned in the
 * same way, over the frames that were looked at here.
 */
final class RegionCheck {
  private final MeasuredScan scan;
  private final CrossLines lines;
  private final CrossCheckRequest request;
  private final RegionVolumes volumes;

  RegionCheck(
      MeasuredScan scan, CrossLines lines, CrossCheckRequest request, RegionVolumes volumes) {
    this.scan = scan;
    this.lines = lines;
    this.request = request;
    this.volumes = volumes;
  }

  List<CrossLine> of(List<SegmentMask> masks) throws InterruptedException {
    Map<RegionKind, List<SegmentMask>> known = new LinkedHashMap<>();
    Map<RegionKind, Set<String>> words = new LinkedHashMap<>();
    List<CrossLine> all = new ArrayList<>();
    Set<String> unknown = new LinkedHashSet<>();
    for (SegmentMask mask : masks) {
      if (!mask.sourceUid().equals(scan.scan().identity().sopUid())) {
        continue;
      }
      Optional<RegionKind> kind = request.kind(mask.type());
      if (kind.isPresent()) {
        known.computeIfAbsent(kind.get(), k -> new ArrayList<>()).add(mask);
        words.computeIfAbsent(kind.get(), k -> new LinkedHashSet<>()).add(words(mask));
      } else if (unknown.add(mask.type().scheme() + " " + mask.type().value())) {
        all.add(unknown(mask));
      }
    }
    for (RegionKind kind : RegionKind.values()) {
      if (known.containsKey(kind)) {
        all.add(line(kind, String.join(" and ", words.get(kind)), known.get(kind)));
      } else if (here(kind)) {
        all.add(
            lines.refused(
                pair("", kind),
                OptionalDouble.empty(),
                ours(kind),
                "the object has no segment of it; it does not tell whether it was looked for"));
      }
    }
    return all;
  }

  /** Returns what a segment is; of fractions, how they were read. */
  private static String words(SegmentMask mask) {
    return mask.reading().isEmpty()
        ? mask.type().toString()
        : mask.type() + " where " + mask.reading();
  }

  private CrossLine unknown(SegmentMask mask) {
    return lines.refused(
        new Pair(words(mask), "", RegionTable.SCAN, Quantity.REGION_VOLUME),
        "no region of ours has this code; --segment tells which one it means");
  }

  private CrossLine line(RegionKind kind, String words, List<SegmentMask> masks)
      throws InterruptedException {
    Pair pair = pair(words, kind);
    ScanSize size = scan.scan().size();
    for (SegmentMask mask : masks) {
      if (mask.depths() != size.depths()
          || mask.ascans() != size.ascans()
          || mask.frame() >= size.frames()) {
        return lines.refused(pair, "its pixels are not those of the scan's frames");
      }
    }
    if (!scan.labels().searched().contains(kind)) {
      return lines.refused(pair, "the region was not looked for here");
    }
    RegionLabels theirs = labels(kind, masks);
    VoxelOverlap overlap = overlap(kind, theirs);
    return lines.voxels(
        pair, overlap, volumes.wholeNl(scan, theirs, kind), ours(kind), remark(masks));
  }

  private String remark(List<SegmentMask> masks) {
    long blind =
        masks.stream()
            .mapToInt(SegmentMask::frame)
            .filter(frame -> frame >= 0)
            .distinct()
            .filter(frame -> !scan.labels().searched(frame))
            .count();
    List<String> remarks = new ArrayList<>();
    masks.stream()
        .map(SegmentMask::reading)
        .filter(reading -> !reading.isEmpty())
        .distinct()
        .forEach(
            reading ->
                remarks.add(
                    "definitions differ: theirs are fractions, ours are masks; a voxel of theirs"
                        + " counts whole where "
                        + reading));
    if (blind > 0) {
      remarks.add(blind + " frames of theirs were not looked at here and do not count");
    }
    return String.join("; ", remarks);
  }

  /** Returns their voxels in the frames that were looked at here. */
  private RegionLabels labels(RegionKind kind, List<SegmentMask> masks) {
    ScanSize size = scan.scan().size();
    Map<Integer, byte[]> frames = new LinkedHashMap<>();
    for (SegmentMask mask : masks) {
      byte[] frame = frames.computeIfAbsent(mask.frame(), f -> new byte[size.framePixels()]);
      for (int i = 0; i < frame.length; i++) {
        if (mask.contains(i / size.ascans(), i % size.ascans())) {
          frame[i] = kind.label();
        }
      }
    }
    RegionLabels.Builder labels = RegionLabels.builder(size, Set.of(kind));
    byte[] nothing = new byte[size.framePixels()];
    for (int f = 0; f < size.frames(); f++) {
      if (scan.labels().searched(f)) {
        labels.set(f, frames.getOrDefault(f, nothing));
      }
    }
    return labels.build();
  }

  private VoxelOverlap overlap(RegionKind kind, RegionLabels theirs) {
    long their = 0;
    long our = 0;
    long both = 0;
    for (int f = 0; f < theirs.size().frames(); f++) {
      if (!theirs.any(f) && !scan.labels().any(f)) {
        continue;
      }
      byte[] a = theirs.frame(f);
      byte[] b = scan.labels().frame(f);
      for (int i = 0; i < a.length; i++) {
        boolean inTheirs = a[i] == kind.label();
        boolean inOurs = b[i] == kind.label();
        their += inTheirs ? 1 : 0;
        our += inOurs ? 1 : 0;
        both += inTheirs && inOurs ? 1 : 0;
      }
    }
    return new VoxelOverlap(their, our, both);
  }

  private boolean here(RegionKind kind) {
    return table(kind).flatMap(table -> table.whole().present()).orElse(false);
  }

  private OptionalDouble ours(RegionKind kind) {
    return table(kind).map(table -> volume(table)).orElse(OptionalDouble.empty());
  }

  static OptionalDouble volume(RegionTable table) {
    return table.whole() instanceof MeasuredRegion measured
        ? OptionalDouble.of(measured.volumeNl())
        : OptionalDouble.empty();
  }

  private Optional<RegionTable> table(RegionKind kind) {
    return scan.regions().stream().filter(table -> table.kind() == kind).findFirst();
  }

  private static Pair pair(String theirs, RegionKind kind) {
    return new Pair(theirs, kind.code(), RegionTable.SCAN, Quantity.REGION_VOLUME);
  }
}

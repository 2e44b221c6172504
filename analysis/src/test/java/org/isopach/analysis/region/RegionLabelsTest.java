package org.isopach.analysis.region;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.isopach.analysis.scan.ScanSize;
import org.junit.jupiter.api.Test;

/** That labels come back as they were set, and that "not looked for" is not "not found". */
class RegionLabelsTest {
  private static final ScanSize SIZE = new ScanSize(3, 4, 5);
  private static final Set<RegionKind> ALL = EnumSet.allOf(RegionKind.class);

  @Test
  void labelsAreThoseOfThePublishedList() {
    assertEquals(1, RegionKind.INTRARETINAL_FLUID.label());
    assertEquals(2, RegionKind.SUBRETINAL_FLUID.label());
    assertEquals(3, RegionKind.RPE_ELEVATION.label());
    assertEquals(4, RegionKind.HYPERREFLECTIVE_MATERIAL.label());
    for (RegionKind kind : RegionKind.values()) {
      assertEquals(Optional.of(kind), RegionKind.ofLabel(kind.label()));
    }
    assertEquals(Optional.empty(), RegionKind.ofLabel(0));
    assertThrows(IllegalArgumentException.class, () -> RegionKind.ofLabel(5));
  }

  @Test
  void aFrameComesBackAsItWasSet() {
    byte[] labels = new byte[20];
    labels[1 * 4 + 3] = 1;
    labels[3 * 4] = 4;
    RegionLabels.Builder builder = RegionLabels.builder(SIZE, ALL);
    builder.set(1, labels);
    RegionLabels regions = builder.build();
    assertArrayEquals(labels, regions.frame(1));
    assertEquals(1, regions.label(1, 1, 3));
    assertEquals(Optional.of(RegionKind.HYPERREFLECTIVE_MATERIAL), regions.kind(1, 3, 0));
    assertEquals(0, regions.label(1, 0, 3));
    assertEquals(0, regions.label(1, 4, 3));
    assertEquals(1, regions.firstDepth(1));
    assertEquals(4, regions.endDepth(1));
    assertArrayEquals(new byte[20], regions.frame(0));
    assertFalse(regions.isEmpty());
    assertThrows(IndexOutOfBoundsException.class, () -> regions.label(1, 5, 0));
    assertThrows(IndexOutOfBoundsException.class, () -> regions.label(1, 0, 4));
    assertThrows(IndexOutOfBoundsException.class, () -> regions.any(3));
  }

  @Test
  void laterChangesToTheArrayDoNotReachTheLabels() {
    byte[] labels = new byte[20];
    labels[7] = 2;
    RegionLabels.Builder builder = RegionLabels.builder(SIZE, ALL);
    builder.set(0, labels);
    labels[7] = 0;
    RegionLabels regions = builder.build();
    regions.frame(0)[7] = 3;
    assertEquals(2, regions.label(0, 1, 3));
  }

  @Test
  void notLookedForIsToldFromNotFound() {
    RegionLabels.Builder builder =
        RegionLabels.builder(SIZE, EnumSet.of(RegionKind.SUBRETINAL_FLUID));
    builder.set(2, new byte[20]);
    RegionLabels regions = builder.build();
    assertTrue(regions.isEmpty());
    assertTrue(regions.searched(2));
    assertFalse(regions.searched(0));
    assertEquals(Set.of(RegionKind.SUBRETINAL_FLUID), regions.searched());
    assertEquals(Set.of(), RegionLabels.none(SIZE).searched());
    assertFalse(RegionLabels.none(SIZE).searched(0));
  }

  @Test
  void refusesWhatWasNotLookedForAndWrongShapes() {
    RegionLabels.Builder builder =
        RegionLabels.builder(SIZE, EnumSet.of(RegionKind.SUBRETINAL_FLUID));
    byte[] cyst = new byte[20];
    cyst[0] = 1;
    assertThrows(IllegalArgumentException.class, () -> builder.set(0, cyst));
    assertThrows(IllegalArgumentException.class, () -> builder.set(0, new byte[19]));
    assertThrows(IndexOutOfBoundsException.class, () -> builder.set(3, new byte[20]));
  }

  @Test
  void mirroringTurnsTheScansOfEachRowAndTwiceIsNothing() {
    byte[] labels = new byte[20];
    labels[2 * 4] = 3;
    RegionLabels.Builder builder = RegionLabels.builder(SIZE, ALL);
    builder.set(1, labels);
    RegionLabels regions = builder.build();
    assertEquals(3, regions.mirrored().label(1, 2, 3));
    assertEquals(0, regions.mirrored().label(1, 2, 0));
    assertTrue(regions.mirrored().searched(1));
    assertArrayEquals(labels, regions.mirrored().mirrored().frame(1));
  }

  @Test
  void framesMayBeSetByDifferentThreads() {
    ScanSize size = new ScanSize(200, 3, 2);
    RegionLabels.Builder builder = RegionLabels.builder(size, ALL);
    IntStream.range(0, 200)
        .parallel()
        .forEach(
            f -> {
              byte[] labels = new byte[6];
              labels[f % 6] = (byte) (1 + f % 4);
              builder.set(f, labels);
            });
    RegionLabels regions = builder.build();
    for (int f = 0; f < 200; f++) {
      assertEquals(1 + f % 4, regions.frame(f)[f % 6]);
    }
  }
}

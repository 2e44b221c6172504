package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * An eye and its mirror image give mirrored results to the last bit. The eye is one with fluid, and
 * one with the disc, so that there is something to mirror beside the depths.
 */
class MirrorTest {
  private static final ScanPlan PLAN =
      ScanPlan.raster(new ScanSize(5, 512, 496), 3.87, 6, 1.2, 0);

  private static ExecutorService pool;

  @BeforeAll
  static void start() {
    pool = Executors.newFixedThreadPool(2);
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  private static OctScan scan(Condition condition) {
    return Scans.rendered(PhantomScan.of(condition.parameters(11), PLAN).scan());
  }

  private static SegmentationResult segment(OctScan scan) throws InterruptedException {
    return new RetinaSegmenter(pool, 2).segment(scan);
  }

  @Test
  void regionsOfTheMirroredEyeAreMirrored() throws InterruptedException {
    OctScan scan = scan(Condition.FLUID_WITH_FOCI);
    RegionLabels here = segment(scan).regions();
    RegionLabels there = segment(Scans.otherEye(scan)).regions();
    assertFalse(here.isEmpty(), "an eye full of fluid has regions");
    assertEquals(here.searched(), there.searched());
    int ascans = scan.size().ascans();
    for (int f = 0; f < scan.size().frames(); f++) {
      assertEquals(here.searched(f), there.searched(f));
      byte[] turned = new byte[scan.size().framePixels()];
      byte[] labels = there.frame(f);
      for (int i = 0; i < labels.length; i++) {
        turned[i] = labels[i - i % ascans + ascans - 1 - i % ascans];
      }
      assertArrayEquals(here.frame(f), turned, "frame " + f);
    }
  }

  @Test
  void absencesOfTheMirroredEyeAreMirrored() throws InterruptedException {
    Set<Absence> met = EnumSet.noneOf(Absence.class);
    for (Condition condition :
        EnumSet.of(Condition.DISC_IN_VIEW, Condition.LEAVING_FRAME, Condition.WEDGE_CUTS_RETINA)) {
      OctScan scan = scan(condition);
      SegmentationResult here = segment(scan);
      SegmentationResult there = segment(Scans.otherEye(scan));
      assertEquals(here.findings(), there.findings());
      assertEquals(
          here.disc().map(disc -> negated(disc.centre())),
          there.disc().map(OpticDisc::centre),
          condition.toString());
      assertEquals(here.boundaries().isPresent(), there.boundaries().isPresent());
      if (here.boundaries().isPresent()) {
        for (Boundary boundary : Boundary.values()) {
          met.addAll(compared(surface(here, boundary), surface(there, boundary)));
        }
      }
    }
    assertTrue(met.size() > 2, () -> "too few reasons to compare: " + met);
  }

  private static FundusPoint negated(FundusPoint point) {
    return new FundusPoint(-point.xMm(), point.yMm());
  }

  private static Set<Absence> compared(BoundarySurface here, BoundarySurface there) {
    Set<Absence> met = EnumSet.noneOf(Absence.class);
    Scans.assertMirrored(here, there);
    for (int f = 0; f < here.frames(); f++) {
      for (int a = 0; a < here.ascans(); a++) {
        assertEquals(here.absence(f, a), there.absence(f, here.ascans() - 1 - a));
        met.add(here.absence(f, a));
      }
    }
    return met;
  }

  /** An eye of unknown side is searched as it is laid out. */
  @Test
  void withoutASideNothingIsTurned() throws InterruptedException {
    OctScan scan = scan(Condition.HEALTHY);
    OctScan right = scan.laterality().equals(Optional.of(Laterality.RIGHT)) ? scan : Scans.otherEye(scan);
    OctScan unknown = Scans.withLaterality(right, Optional.empty());
    SegmentationResult known = segment(right);
    SegmentationResult same = segment(unknown);
    for (Boundary boundary : Boundary.values()) {
      Scans.assertSame(surface(known, boundary), surface(same, boundary));
    }
  }

  private static BoundarySurface surface(SegmentationResult result, Boundary boundary) {
    return result.boundaries().orElseThrow().surface(boundary).orElseThrow();
  }
}

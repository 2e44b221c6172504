package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.segment.SegmentationResult;

/** Scans eyes under every condition of the phantom and compares what is found with the truth. */
final class ConditionStudy {
  /** 25 horizontal frames of 512 A-scans over 6 x 6 mm at 3.87 µm, 496 deep. */
  static final ScanPlan PLAN = ScanPlan.raster(new ScanSize(25, 512, 496), 3.87, 6, 6, 0);

  private final Chain chain;
  private final Progress progress;

  ConditionStudy(Chain chain, Progress progress) {
    this.chain = chain;
    this.progress = progress;
  }

  /**
   * Returns one result for each condition.
   *
   * @param sick eyes of every condition but the healthy one
   * @param healthy eyes of the healthy one
   */
  List<ConditionResult> run(List<Long> sick, List<Long> healthy) throws InterruptedException {
    List<Callable<ConditionScan>> work = new ArrayList<>();
    for (Condition condition : Condition.values()) {
      for (long seed : condition == Condition.HEALTHY ? healthy : sick) {
        work.add(() -> scan(condition, seed));
      }
    }
    List<ConditionScan> scans = chain.all(progress.watching("scans of conditions", work));
    List<ConditionResult> results = new ArrayList<>();
    int at = 0;
    for (Condition condition : Condition.values()) {
      int count = condition == Condition.HEALTHY ? healthy.size() : sick.size();
      results.add(new ConditionResult(condition, scans.subList(at, at + count)));
      at += count;
    }
    return results;
  }

  private ConditionScan scan(Condition condition, long seed) throws InterruptedException {
    PhantomScan phantom = PhantomScan.of(condition.parameters(seed), PLAN);
    SegmentationResult found = chain.segment(phantom.scan());
    return ConditionScorer.of(seed, phantom, found.boundaries(), found.regions());
  }
}

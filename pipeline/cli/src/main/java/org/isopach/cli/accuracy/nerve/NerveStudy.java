package org.isopach.cli.accuracy.nerve;

import java.util.Set;
import org.isopach.cli.accuracy.Progress;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomVersion;

/** Writes the page on how right the nerve's figures are. */
public final class NerveStudy {
  private NerveStudy() {}

  /**
   * Returns the page.
   *
   * @param from the first seed
   * @param count how many seeds to use at most where a part does not have a number of its own
   * @param parts what to do
   * @param quick whether only a few eyes are measured, to see whether all works
   * @param threads scans worked on at a time
   * @param progress told how far the work is
   * @throws InterruptedException when the calling thread is interrupted
   */
  public static Markdown page(
      long from, int count, Set<NervePart> parts, boolean quick, int threads, Progress progress)
      throws InterruptedException {
    Markdown page = new Markdown();
    page.heading(1, "Accuracy of the optic nerve's figures on the eye phantom")
        .paragraph(
            "Written by `bin/accuracy --nerve`; do not edit. Phantom "
                + PhantomVersion.CURRENT
                + ". Training used seeds 900000 to 999999, development those from 800000 on. Each"
                + " scan is rendered, searched and measured by the program's own code from frames"
                + " to figures, and held against the phantom's truth (see [phantom.md](phantom.md));"
                + " what the figures mean is in [measurements.md](measurements.md). Errors are"
                + " found less true. Bars hold for the mean absolute error unless the row says"
                + " otherwise; behind a mean stand its 95 % interval (percentile bootstrap over the"
                + " single errors, which for several arcs of one eye is too narrow) and in brackets"
                + " bias, SD and the greatest error. A refused or missing figure is counted, not judged. A phantom is not"
                + " a patient: a real, diseased eye can be harder than any of these.");
    NerveSeeds seeds = new NerveSeeds(from, count, quick);
    try (NerveBench bench = new NerveBench(threads, progress)) {
      Repeats repeats = new Repeats(bench, seeds);
      for (NervePart part : parts) {
        switch (part) {
          case CIRCLES -> new CirclePart(bench, seeds).addTo(page);
          case VOLUMES -> new VolumePart(bench, seeds).addTo(page);
          case ANGLE -> new AnglePart(bench, seeds).addTo(page);
          case WEDGE -> new WedgePart(bench, repeats, seeds).addTo(page);
          case TREND -> new TrendPart(bench, repeats, seeds).addTo(page);
          case NORMAL -> new NormalPart(bench, seeds).addTo(page);
        }
      }
    }
    return page;
  }
}

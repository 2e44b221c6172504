package org.isopach.cli.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.cli.page.Markdown;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.JobListener;
import org.isopach.job.JobRequest;
import org.isopach.job.Output;
import org.isopach.job.SeriesJob;
import org.isopach.job.SeriesRequest;
import org.isopach.job.SeriesResult;
import org.isopach.report.Software;

/** What the series of one eye's visits take beyond measuring them: whole runs of the job. */
final class SeriesSpeed {
  private static final int[] VISITS = {5, 10, 20};
  private static final double MOST_SECONDS = 3;

  private SeriesSpeed() {}

  /** Runs the job on more and more visits and adds the figures to a page. */
  static void run(Path folder, int threads, Markdown page)
      throws IOException, FrameReadException, InterruptedException {
    List<List<String>> rows = new ArrayList<>();
    double first = 0;
    Path warm = folder.resolve("visits-warm");
    BenchFiles.rendered().writeVisits(warm, VISITS[0]);
    result(warm, folder.resolve("series-warm"), threads);
    for (int visits : VISITS) {
      Path in = folder.resolve("visits-" + visits);
      BenchFiles.rendered().writeVisits(in, visits);
      long start = System.nanoTime();
      SeriesResult result = result(in, folder.resolve("series-" + visits), threads);
      double whole = (System.nanoTime() - start) / 1e9;
      double seconds = result.seriesMillis() / 1000.0;
      first = first == 0 ? seconds / visits : first;
      rows.add(
          List.of(
              Integer.toString(visits),
              Markdown.number(whole, 1),
              Markdown.number(seconds, 2),
              Markdown.number(1000 * seconds / visits, 0),
              Markdown.number(seconds / visits / first, 2),
              visits < 20 ? "\u2013" : seconds <= MOST_SECONDS ? "yes" : "**no**"));
    }
    page.heading(2, "Series of visits")
        .paragraph(
            "Visits of one eye, 49 frames x 512 A-scans each, through the whole job with charts."
                + " After measuring: visits laid on the first one, tables and charts. Bar: at most"
                + " 3 s for 20 visits, and linear.")
        .table(
            List.of(
                "visits",
                "whole run s",
                "after measuring s",
                "ms a visit",
                "by that of 5",
                "20 visits in 3 s"),
            rows);
  }

  private static SeriesResult result(Path in, Path out, int threads)
      throws IOException, InterruptedException {
    JobRequest job =
        JobRequest.of(List.of(in), out).onThreads(threads).writing(EnumSet.of(Output.PICTURES));
    return new SeriesJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), Software.current())
        .run(new SeriesRequest(job, SeriesRules.USUAL, Optional.empty()), JobListener.SILENT);
  }
}

package org.isopach.job.watch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.ExitStatus;
import org.isopach.job.JobListener;
import org.isopach.job.JobRequest;
import org.isopach.job.NerveJob;
import org.isopach.job.NerveRequest;
import org.isopach.job.ThicknessJob;
import org.isopach.report.Software;
import org.isopach.report.normal.ReferenceTableFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the ends of several jobs make together, and which of them are worth another try. */
class WorkResultTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({
    // A study without a scan of the nerve is wholly measured.
    "MEASURE=ALL_MEASURED NERVE=NOTHING_MEASURABLE, ALL_MEASURED",
    "MEASURE=ALL_MEASURED NERVE=ALL_MEASURED, ALL_MEASURED",
    "MEASURE=ALL_MEASURED NERVE=SOME_NOT_MEASURED, SOME_NOT_MEASURED",
    "MEASURE=SOME_NOT_MEASURED NERVE=ALL_MEASURED, SOME_NOT_MEASURED",
    "MEASURE=NOTHING_MEASURABLE NERVE=ALL_MEASURED, SOME_NOT_MEASURED",
    "MEASURE=NOTHING_MEASURABLE NERVE=NOTHING_MEASURABLE, NOTHING_MEASURABLE",
    "NERVE=NOTHING_MEASURABLE, NOTHING_MEASURABLE",
    "NERVE=SOME_NOT_MEASURED, SOME_NOT_MEASURED",
    "COMPARE=ALL_MEASURED, ALL_MEASURED"
  })
  void aGapInAnyJobIsAGap(String ends, ExitStatus expected) {
    assertEquals(expected, new WorkResult(ends(ends), Optional.empty()).status());
    ExitStatus failed = new WorkResult(ends(ends), Optional.of("no memory")).status();
    assertEquals(
        expected == ExitStatus.ALL_MEASURED ? ExitStatus.SOME_NOT_MEASURED : expected, failed);
  }

  private static List<WorkResult.JobEnd> ends(String text) {
    List<WorkResult.JobEnd> ends = new ArrayList<>();
    for (String word : text.split(" ", -1)) {
      String[] parts = word.split("=", -1);
      ends.add(new WorkResult.JobEnd(WatchJob.valueOf(parts[0]), ExitStatus.valueOf(parts[1])));
    }
    return ends;
  }

  @Test
  void whatCannotBeReadOrWrittenIsAFailureAndOtherInputsAreNot() throws Exception {
    Path text = Files.writeString(folder.resolve("notes"), "Notes of the SANDPIPER visit.");
    Path blocked = Files.createDirectories(folder.resolve("blocked"));
    Files.writeString(blocked.resolve("measure"), "a file where the folder belongs");

    WorkResult other = run(text, folder.resolve("other"));
    WorkResult gone = run(folder.resolve("gone"), folder.resolve("out"));
    WorkResult unwritten = run(text, blocked);

    assertEquals(Optional.empty(), other.failure());
    assertEquals(ExitStatus.NOTHING_MEASURABLE, other.status());
    assertTrue(gone.failure().orElseThrow().contains("no such file"), gone.toString());
    assertTrue(unwritten.failure().orElseThrow().startsWith("measure: "), unwritten.toString());
    assertEquals(List.of(WatchJob.NERVE), unwritten.ends().stream().map(e -> e.job()).toList());
  }

  private static WorkResult run(Path input, Path out) throws IOException, InterruptedException {
    Software software = Software.current();
    JobWork work =
        new JobWork(
            List.of(WatchJob.MEASURE, WatchJob.NERVE),
            new ThicknessJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), software),
            new NerveJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), software),
            JobRequest.of(List.of(input), out).onThreads(1),
            NerveRequest.usual(ReferenceTableFile.shipped()));
    return work.run(List.of(input), out, JobListener.SILENT);
  }
}

package org.isopach.cli.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.ExitStatus;
import org.isopach.job.JobListener;
import org.isopach.job.JobRequest;
import org.isopach.job.JobResult;
import org.isopach.job.Output;
import org.isopach.job.ThicknessJob;
import org.isopach.report.Software;

/** The job of {@code isopach measure}, with all it writes or a part of it. */
final class JobPass {
  private final Path out;
  private final UnaryOperator<JobRequest> wish;

  /** Makes a pass of the usual layers on some threads that writes some outputs. */
  JobPass(int threads, Path out, Set<Output> outputs) {
    this(out, request -> request.onThreads(threads).writing(outputs));
  }

  /** Makes a pass of what is wished for instead of the usual request. */
  JobPass(Path out, UnaryOperator<JobRequest> wish) {
    this.out = out;
    this.wish = wish;
  }

  /**
   * @throws IllegalStateException when not every volume was measured, for then the time means
   *     nothing
   */
  JobResult run(Path folder) throws IOException, InterruptedException {
    return run(folder, JobListener.SILENT);
  }

  /** As {@link #run(Path)}, telling a listener. */
  JobResult run(Path folder, JobListener listener) throws IOException, InterruptedException {
    ThicknessJob job =
        new ThicknessJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), Software.current());
    JobResult result =
        job.run("measure", wish.apply(JobRequest.of(List.of(folder), out)), listener);
    if (result.status() != ExitStatus.ALL_MEASURED) {
      throw new IllegalStateException("not measured: " + result.findings());
    }
    return result;
  }
}

package org.isopach.cli;

import java.io.IOException;
import java.io.PrintWriter;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.derive.OphthalmicThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.JobRequest;
import org.isopach.job.JobResult;
import org.isopach.job.ThicknessJob;
import org.isopach.report.Software;
import picocli.CommandLine.Model.CommandSpec;

/** Runs the job, talking on standard error, and prints what it brought. */
final class JobRunner {
  private final PrintWriter out;
  private final PrintWriter err;
  private final TalkOptions talk;

  JobRunner(CommandSpec spec, TalkOptions talk) {
    this.out = spec.commandLine().getOut();
    this.err = spec.commandLine().getErr();
    this.talk = talk;
  }

  /** Returns the exit code. */
  int run(String command, JobRequest request) throws IOException, InterruptedException {
    ThicknessJob job =
        new ThicknessJob(
            DicomFolder.reader(),
            new OphthalmicThicknessMapWriter(DicomFolder.headers(), DicomWriters.partTen()),
            Software.current());
    JobResult result;
    try (RunTalk listener = RunTalk.on(err, talk)) {
      result = job.run(command, request, listener);
    }
    if (talk.json()) {
      ResultJson.print(out, result);
    } else {
      new ResultPrinter(out).print(result);
    }
    out.flush();
    err.println(result.status().words());
    err.flush();
    return result.status().code();
  }
}

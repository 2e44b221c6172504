package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.derive.OphthalmicThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.AxialLengths;
import org.isopach.job.FrameOutputs;
import org.isopach.job.JobRequest;
import org.isopach.job.NerveJob;
import org.isopach.job.NerveRequest;
import org.isopach.job.Output;
import org.isopach.job.ThicknessJob;
import org.isopach.job.watch.JobWork;
import org.isopach.job.watch.UnitWork;
import org.isopach.job.watch.WatchJob;
import org.isopach.job.watch.WatchSettings;
import org.isopach.report.Software;
import org.isopach.report.normal.ReferenceTableFile;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/**
 * What is watched, how, and what is done with what comes. An eye's axial length is not among it:
 * there is none that fits all patients.
 */
final class WatchOptions {
  private static final double LEAST_SECONDS = 0.1;
  private static final double MOST_SECONDS = Duration.ofDays(1).toSeconds();
  private static final int MOST_RETRIES = 100;

  @Spec(Target.MIXEE)
  private CommandSpec spec;

  @Mixin private LayerOptions measured;
  @Mixin private OutputOptions outputs;

  @Parameters(
      paramLabel = "FOLDER",
      arity = "0..*",
      description = "Folders to watch, with all folders in them; network shares too.")
  private List<Path> folders = List.of();

  @Option(
      names = "--out",
      paramLabel = "DIR",
      required = true,
      description =
          "Where results go: STUDY/run-1 and so on; made when missing. Neither in a watched folder"
              + " nor around one. One watcher per folder.")
  private Path out;

  @Option(
      names = "--job",
      paramLabel = "JOB",
      split = ",",
      defaultValue = "measure,nerve",
      description =
          "What is run: measure and nerve on each study by itself; with compare, all on all known"
              + " studies of the patient (default: ${DEFAULT-VALUE}).")
  private List<WatchJob> jobs;

  @Option(
      names = "--every",
      paramLabel = "SECONDS",
      defaultValue = "10",
      description = "Time between two looks into the folders (default: ${DEFAULT-VALUE}).")
  private double every;

  @Option(
      names = "--quiet",
      paramLabel = "SECONDS",
      defaultValue = "30",
      description =
          "A file counts as whole when it stayed the same that long; a study is worked on when"
              + " nothing new came for it that long (default: ${DEFAULT-VALUE}).")
  private double quiet;

  @Option(
      names = "--retries",
      paramLabel = "N",
      defaultValue = "5",
      description =
          "How often failed work is tried again, after 1, 2, 4 and so on up to 60 minutes, before"
              + " it is parked (default: ${DEFAULT-VALUE}).")
  private int retries;

  @Option(names = "--retry-parked", description = "Try once more what was parked.")
  private boolean again;

  @Option(names = "--once", description = "Work on what is there and end.")
  private boolean once;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Frames worked on at a time (default: the number of processors).")
  private Integer threads;

  /** Returns the folder of results as it was named. */
  Path results() {
    return out;
  }

  boolean again() {
    return again;
  }

  /**
   * Returns how to watch; the folder of results is made.
   *
   * @throws ParameterException when the options make no sense
   */
  WatchSettings settings() {
    between("--every", every);
    between("--quiet", quiet);
    if (retries < 0 || retries > MOST_RETRIES) {
      throw wrong("--retries must be from 0 to " + MOST_RETRIES + ", was " + retries);
    }
    if (threads != null && threads < 1) {
      throw wrong("--threads must be at least 1, was " + threads);
    }
    if (folders.isEmpty()) {
      throw wrong("name a folder to watch");
    }
    try {
      List<Path> watched = watched();
      return new WatchSettings(
          watched,
          results(watched),
          jobs.contains(WatchJob.COMPARE),
          words(),
          Duration.ofMillis(Math.round(every * 1000)),
          Duration.ofMillis(Math.round(quiet * 1000)),
          retries,
          once);
    } catch (IOException e) {
      throw wrong("--out '" + out + "' cannot be made: " + e);
    }
  }

  private List<Path> watched() {
    for (Path folder : folders) {
      if (!Files.isDirectory(folder)) {
        throw wrong("'" + folder + "' is not a folder; check the path");
      }
    }
    return folders.stream().map(path -> path.toAbsolutePath().normalize()).distinct().toList();
  }

  /** Returns the folder of results without symbolic links. */
  private Path results(List<Path> watched) throws IOException {
    if (Files.exists(out) && !Files.isDirectory(out)) {
      throw wrong("--out '" + out + "' is a file; give a folder");
    }
    Path place = real(out.toAbsolutePath().normalize());
    for (Path folder : watched) {
      Path other = folder.toRealPath();
      if (place.startsWith(other) || other.startsWith(place)) {
        throw wrong(
            "--out '" + out + "' and the watched folder '" + folder + "' lie in one another");
      }
    }
    return Files.createDirectories(place);
  }

  /** Returns a place that may not exist yet as it is reached without symbolic links. */
  private static Path real(Path place) throws IOException {
    if (Files.exists(place) || place.getParent() == null) {
      return place.toRealPath();
    }
    return real(place.getParent()).resolve(place.getFileName());
  }

  /** Returns what is run on what comes. */
  UnitWork work() {
    Software software = Software.current();
    return new JobWork(
        jobs(),
        new ThicknessJob(
            DicomFolder.reader(),
            new OphthalmicThicknessMapWriter(DicomFolder.headers(), DicomWriters.partTen()),
            software),
        new NerveJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), software),
        request(),
        NerveRequest.usual(ReferenceTableFile.shipped()));
  }

  private JobRequest request() {
    return new JobRequest(
        folders,
        out,
        measured.layers(),
        measured.pictured(),
        measured.grid(),
        AxialLengths.NONE,
        Optional.empty(),
        outputs.wanted(),
        FrameOutputs.NONE,
        threads == null ? Runtime.getRuntime().availableProcessors() : threads);
  }

  private List<WatchJob> jobs() {
    return List.copyOf(new LinkedHashSet<>(jobs));
  }

  /** Returns what decides the results, in words. */
  private String words() {
    return "--job "
        + jobs().stream().map(WatchJob::toString).sorted().collect(Collectors.joining(","))
        + " --layer "
        + measured.layers().stream().map(Layer::name).collect(Collectors.joining(","))
        + " --grid "
        + measured.grid().name()
        + " writing "
        + outputs.wanted().stream().map(Output::toString).collect(Collectors.joining(","));
  }

  private void between(String option, double seconds) {
    if (!(seconds >= LEAST_SECONDS && seconds <= MOST_SECONDS)) {
      throw wrong(option + " must be from 0.1 to 86400 seconds, was " + seconds);
    }
  }

  private ParameterException wrong(String what) {
    return new ParameterException(spec.commandLine(), what);
  }
}

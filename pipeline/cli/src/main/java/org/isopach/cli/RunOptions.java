package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.OcularMagnification;
import org.isopach.job.AxialLengths;
import org.isopach.job.Output;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/** What every run that measures has in common: the eyes' lengths, what is written, threads. */
class RunOptions {
  @Spec(Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--axial-length",
      paramLabel = "EYE=MM",
      split = ",",
      converter = {LateralityConverter.class, AxialLengthConverter.class},
      description = "Axial lengths such as R=25.10,L=24.85; corrects lengths on the fundus.")
  private Map<Laterality, OcularMagnification> axialLengths;

  @Option(
      names = "--assumed-axial-length",
      paramLabel = "MM",
      converter = AxialLengthConverter.class,
      defaultValue = "24.0",
      description =
          "The length the instrument reckoned with, used with --axial-length where an"
              + " object does not state it (default: ${DEFAULT-VALUE}).")
  private OcularMagnification assumed;

  @Mixin private OutputOptions outputs;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Frames worked on at a time (default: the number of processors).")
  private Integer threads;

  /** Returns the number of threads asked for, at least 1. */
  int threads() {
    int count = threads == null ? Runtime.getRuntime().availableProcessors() : threads;
    if (count < 1) {
      throw wrong("--threads must be at least 1, was " + count);
    }
    return count;
  }

  AxialLengths lengths() {
    Map<Laterality, OcularMagnification> given = new EnumMap<>(Laterality.class);
    if (axialLengths != null) {
      given.putAll(axialLengths);
    }
    return new AxialLengths(given, assumed);
  }

  Set<Output> outputs() {
    return outputs.wanted();
  }

  /** Makes the run folder, or says why it cannot. */
  void makeFolder(Path out) {
    if (Files.exists(out) && !Files.isDirectory(out)) {
      throw wrong("--out '" + out + "' is a file; give a folder");
    }
    try {
      Files.createDirectories(out);
    } catch (IOException e) {
      throw wrong("--out '" + out + "' cannot be made: " + e.getMessage());
    }
    if (!Files.isWritable(out)) {
      throw wrong("--out '" + out + "' cannot be written to; give another folder");
    }
  }

  ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}

package org.isopach.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/** What is to be read. */
final class InputOptions {
  @Spec(Target.MIXEE)
  private CommandSpec spec;

  @Parameters(
      paramLabel = "IN",
      arity = "1..*",
      description = "Files and folders to read; folders of any nesting and naming.")
  private List<Path> inputs;

  /** Returns the inputs; each exists. */
  List<Path> inputs() {
    for (Path input : inputs) {
      if (!Files.exists(input)) {
        throw new ParameterException(
            spec.commandLine(), "input '" + input + "' does not exist; check the path");
      }
    }
    return inputs;
  }
}

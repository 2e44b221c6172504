package org.isopach.cli;

import java.io.IOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.job.NerveRequest;
import org.isopach.report.normal.ReferenceTableException;
import org.isopach.report.normal.ReferenceTableFile;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/** How the nerve is measured, and whose values it is compared with. */
final class NerveOptions {
  @Spec(Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--circle",
      paramLabel = "MM",
      defaultValue = "3.46",
      description =
          "Diameter of the circle laid round the disc of volumes; that of circle scans is theirs"
              + " (default: ${DEFAULT-VALUE}).")
  private double circleMm;

  @Option(
      names = "--align-to-fovea",
      description =
          "Count angles from the line between disc and fovea where a scan of the visit shows both,"
              + " not from the horizontal.")
  private boolean alignToFovea;

  @Option(
      names = "--reference",
      paramLabel = "FILE",
      description =
          "A table of reference groups of your own, in the columns of docs/measurements.md, in"
              + " place of the published ones.")
  private Path reference;

  @Option(names = "--no-reference", description = "Compare with no reference group.")
  private boolean noReference;

  /**
   * Returns the request.
   *
   * @throws ParameterException when the options make no sense or the table cannot be read
   */
  NerveRequest request() {
    if (reference != null && noReference) {
      throw wrong("--reference and --no-reference exclude one another");
    }
    try {
      return new NerveRequest(circleMm, alignToFovea, table());
    } catch (IllegalArgumentException e) {
      throw wrong("--circle: " + e.getMessage());
    }
  }

  private Optional<ReferenceTable> table() {
    if (noReference) {
      return Optional.empty();
    }
    if (reference == null) {
      return Optional.of(ReferenceTableFile.shipped());
    }
    try {
      return Optional.of(ReferenceTableFile.read(reference));
    } catch (ReferenceTableException e) {
      throw wrong("--reference '" + reference + "' has faults: " + e.getMessage());
    } catch (NoSuchFileException e) {
      throw wrong("--reference '" + reference + "': there is no such file");
    } catch (IOException e) {
      String why = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
      throw wrong("--reference '" + reference + "' cannot be read: " + why);
    }
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}

package org.isopach.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.isopach.dicom.deidentify.Deidentifiers;
import org.isopach.dicom.deidentify.FolderDeidentifier;
import org.isopach.dicom.deidentify.Options;
import org.isopach.dicom.deidentify.OutFolder;
import org.isopach.dicom.deidentify.Outcome;
import org.isopach.dicom.deidentify.Pseudonyms;
import org.isopach.dicom.deidentify.ReportFiles;
import org.isopach.job.ExitStatus;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach deidentify}. */
@Command(
    name = "deidentify",
    description = "Writes copies of DICOM objects without the patient's identity.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:every DICOM object was de-identified",
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 3:some objects were refused; each is named",
      " 4:nothing could be de-identified"
    },
    footer = {"", Cautions.LINE})
final class DeidentifyCommand implements Callable<Integer> {
  private static final String KEY_VARIABLE = "ISOPACH_DEIDENTIFY_KEY";

  /** What becomes of dates. */
  enum Dates {
    SHIFTED,
    REMOVED
  }

  @Spec private CommandSpec spec;
  @Mixin private InputOptions inputs;
  @Mixin private TalkOptions talk;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      required = true,
      description =
          "The folder for the copies, outside of the inputs: missing, empty, or of an earlier run"
              + " with the same options and key, which is then completed.")
  private Path out;

  @Option(
      names = "--key-file",
      paramLabel = "FILE",
      description =
          "File with the secret key of the pseudonyms, 16 bytes or more; without it the"
              + " environment variable "
              + KEY_VARIABLE
              + " is the key. The same key gives the same pseudonyms.")
  private Path keyFile;

  @Option(
      names = "--dates",
      paramLabel = "HOW",
      defaultValue = "shifted",
      description =
          "shifted: by one number of days for each patient (default); removed: dummy dates.")
  private Dates dates;

  @Option(names = "--keep-device", description = "Keep the device's serial number and names.")
  private boolean keepDevice;

  @Option(
      names = "--keep-characteristics",
      description = "Keep sex, age, size, weight and the like.")
  private boolean keepCharacteristics;

  @Override
  public Integer call() throws Exception {
    List<Path> read = inputs.inputs();
    requireApart(read);
    Options options = new Options(dates == Dates.SHIFTED, keepDevice, keepCharacteristics);
    Pseudonyms names = pseudonyms();
    FolderDeidentifier work = Deidentifiers.of(names);
    OutFolder folder = open(options, names);
    List<Outcome> outcomes = work.run(read, folder);
    ReportFiles.write(folder, outcomes, work.tally());
    print(outcomes);
    return status(outcomes).code();
  }

  private OutFolder open(Options options, Pseudonyms names) throws IOException {
    try {
      return OutFolder.open(out, options, names);
    } catch (IllegalArgumentException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage(), e);
    }
  }

  private static ExitStatus status(List<Outcome> outcomes) {
    if (Outcome.written(outcomes) == 0) {
      return ExitStatus.NOTHING_MEASURABLE;
    }
    boolean gap = outcomes.stream().anyMatch(one -> one.written().isEmpty() && !one.skipped());
    return gap ? ExitStatus.SOME_NOT_MEASURED : ExitStatus.ALL_MEASURED;
  }

  private Pseudonyms pseudonyms() {
    try {
      return new Pseudonyms(key());
    } catch (IllegalArgumentException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage(), e);
    } catch (IOException e) {
      throw new ParameterException(spec.commandLine(), "the key file cannot be read", e);
    }
  }

  private byte[] key() throws IOException {
    if (keyFile != null) {
      return Files.readString(keyFile, StandardCharsets.ISO_8859_1)
          .strip()
          .getBytes(StandardCharsets.ISO_8859_1);
    }
    String key = System.getenv(KEY_VARIABLE);
    if (key == null) {
      throw new ParameterException(
          spec.commandLine(), "a key is missing; give --key-file or set " + KEY_VARIABLE);
    }
    return key.strip().getBytes(StandardCharsets.UTF_8);
  }

  private void requireApart(List<Path> read) throws IOException {
    Path target = real(out.toAbsolutePath().normalize());
    for (Path input : read) {
      Path source = input.toRealPath();
      if (target.startsWith(source) || source.startsWith(target)) {
        throw new ParameterException(
            spec.commandLine(), "the output folder must lie outside of the inputs");
      }
    }
  }

  private static Path real(Path path) throws IOException {
    if (Files.exists(path) || path.getParent() == null) {
      return path.toRealPath();
    }
    return real(path.getParent()).resolve(path.getFileName());
  }

  private void print(List<Outcome> outcomes) throws IOException {
    PrintWriter err = spec.commandLine().getErr();
    for (Outcome one : outcomes) {
      if (one.written().isEmpty() && (!one.skipped() || talk.verbose())) {
        err.println(PlainText.of("not copied: " + one.source() + ": " + one.refused()));
      }
    }
    err.flush();
    long written = Outcome.written(outcomes);
    PrintWriter print = spec.commandLine().getOut();
    if (talk.json()) {
      ResultJson.print(
          print,
          ResultJson.JSON
              .createObjectNode()
              .put("written", written)
              .put("not_copied", outcomes.size() - written));
    } else {
      print.println(
          written + " objects de-identified, " + (outcomes.size() - written) + " files not copied");
      print.println(Cautions.LINE);
    }
    print.flush();
  }
}

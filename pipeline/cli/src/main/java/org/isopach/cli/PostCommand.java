package org.isopach.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.isopach.job.post.BundlePoster;
import org.isopach.job.post.FhirServer;
import org.isopach.job.post.PostResult;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code isopach post}. */
@Command(
    name = "post",
    description =
        "Posts the FHIR files of a run folder, made with --fhir, to a FHIR R4 server. Posting them"
            + " again leaves one of each.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:the server took every file",
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 3:the server did not take some files; each is named",
      " 4:the server took no file, or there is none"
    },
    footer = {"", Cautions.LINE})
final class PostCommand implements Callable<Integer> {
  private static final int SOME = 3;
  private static final int NOTHING = 4;

  @Spec private CommandSpec spec;
  @Mixin private TlsOptions tls;
  @Mixin private TalkOptions talk;

  @Parameters(paramLabel = "RESULTS", description = "The folder of a run.")
  private Path run;

  @Option(
      names = "--to",
      paramLabel = "URL",
      required = true,
      description = "The base of the server, such as https://fhir.example.org/r4.")
  private String to;

  @Option(
      names = "--patient-system",
      paramLabel = "URI",
      description =
          "The system of the server's own patient identifiers, so that results are filed under the"
              + " patients it has; needed where the scans do not say who issued the Patient ID."
              + " Scans that do not say count as this system's too: give it only for a run of one"
              + " system's patients.")
  private String patientSystem;

  @Option(
      names = "--token-file",
      paramLabel = "FILE",
      description = "Say who we are by the bearer token that is the only line of this file.")
  private Path tokenFile;

  @Option(
      names = "--plain",
      description = "Send to other machines than this one by plain HTTP too.")
  private boolean plain;

  @Option(
      names = "--retries",
      paramLabel = "N",
      defaultValue = "5",
      description =
          "How often a file is sent again after a lost connection or a busy server, after 1, 2, 4"
              + " ... up to 60 s. Default: ${DEFAULT-VALUE}.")
  private int retries;

  @Option(
      names = "--timeout",
      paramLabel = "SECONDS",
      defaultValue = "60",
      description = "How long an answer is waited for. Default: ${DEFAULT-VALUE}.")
  private int timeout;

  @Override
  public Integer call() throws Exception {
    if (!Files.isRegularFile(run.resolve("run.json"))) {
      throw wrong("'" + run + "' has no run.json; give the folder of a run");
    }
    NetworkLog log = new NetworkLog(spec.commandLine().getErr(), talk.verbose());
    PostResult result;
    try {
      result = new BundlePoster(server(), system(), log::say).post(run);
    } catch (IllegalArgumentException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage(), e);
    }
    result.failures().forEach(one -> log.say("not posted: " + one.file() + ": " + one.reason()));
    print(result);
    if (result.posted().isEmpty()) {
      return NOTHING;
    }
    return result.failures().isEmpty() ? 0 : SOME;
  }

  private FhirServer server() throws IOException {
    if (timeout < 1) {
      throw wrong("--timeout must be at least 1, was " + timeout);
    }
    return new FhirServer(
        FhirServer.base(to, plain),
        tls.context(spec.commandLine(), false),
        tokenFile == null
            ? Optional.empty()
            : Optional.of(Files.readString(tokenFile, StandardCharsets.UTF_8).strip()),
        Duration.ofSeconds(timeout),
        retries);
  }

  private Optional<URI> system() {
    if (patientSystem == null) {
      return Optional.empty();
    }
    try {
      URI uri = new URI(patientSystem);
      if (uri.isAbsolute()) {
        return Optional.of(uri);
      }
    } catch (URISyntaxException e) {
      throw wrong("--patient-system '" + patientSystem + "' is no URI: " + e.getReason());
    }
    throw wrong("--patient-system '" + patientSystem + "' has no scheme such as urn: or https:");
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }

  private void print(PostResult result) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    if (talk.json()) {
      ResultJson.print(out, ResultJson.JSON.valueToTree(result));
    } else if (result.posted().isEmpty() && result.failures().isEmpty()) {
      out.println("the run has no FHIR files; run it with --fhir");
    } else {
      out.println(
          result.posted().size()
              + " files posted with "
              + result.posted().stream().mapToInt(PostResult.Posted::created).sum()
              + " resources new to the server, "
              + result.failures().size()
              + " files not posted");
    }
    out.flush();
  }
}

package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.isopach.dicom.network.ApplicationTitle;
import org.isopach.dicom.network.CallerSettings;
import org.isopach.dicom.network.CommitResult;
import org.isopach.dicom.network.Destination;
import org.isopach.dicom.network.SendResult;
import org.isopach.dicom.network.SentObject;
import org.isopach.dicom.network.StorageSender;
import org.isopach.dicom.read.FileWalk;
import org.isopach.dicom.web.WebSender;
import org.isopach.dicom.web.WebSettings;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code isopach send}. */
@Command(
    name = "send",
    description =
        "Sends DICOM files, or all in folders, to another application (C-STORE) or a DICOMweb"
            + " server (STOW-RS); without files it asks whether the other side answers (C-ECHO, or"
            + " a query).",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:every object was acknowledged, now or before",
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 3:some objects were not acknowledged, or with --commit not committed; each is named",
      " 4:no object was acknowledged, or nobody answered"
    },
    footer = {"", Cautions.LINE})
final class SendCommand implements Callable<Integer> {
  private static final int SOME = 3;
  private static final int NOTHING = 4;

  @Spec private CommandSpec spec;
  @Mixin private TlsOptions tls;
  @Mixin private WebOptions web;
  @Mixin private TalkOptions talk;
  @Mixin private CommitOptions commit;

  @Parameters(
      paramLabel = "FILES",
      arity = "0..*",
      description = "Files, or folders of any nesting.")
  private List<Path> files = List.of();

  @Option(
      names = "--to",
      paramLabel = "PEER",
      required = true,
      description = "Who gets them: AET@HOST:PORT, or the base URL of a DICOMweb server.")
  private String to;

  @Option(
      names = "--aet",
      paramLabel = "NAME",
      defaultValue = "ISOPACH",
      description = "Our application entity title. Default: ${DEFAULT-VALUE}.")
  private String aet;

  @Option(
      names = "--journal",
      paramLabel = "FILE",
      description =
          "Remember in this file what was acknowledged, and do not send it again in a later run.")
  private Path journal;

  @Option(
      names = "--retries",
      paramLabel = "N",
      defaultValue = "5",
      description = "How often a lost connection is made anew. Default: ${DEFAULT-VALUE}.")
  private int retries;

  @Option(
      names = "--timeout",
      paramLabel = "SECONDS",
      defaultValue = "60",
      description = "How long an answer is waited for. Default: ${DEFAULT-VALUE}.")
  private int timeout;

  @Override
  public Integer call() throws Exception {
    boolean overWeb = web.meant(spec.commandLine(), to);
    commit.check(spec.commandLine(), overWeb);
    if (files.isEmpty()) {
      return echo(overWeb);
    }
    for (Path file : files) {
      if (!Files.exists(file)) {
        throw new ParameterException(spec.commandLine(), "input '" + file + "' does not exist");
      }
    }
    NetworkLog log = new NetworkLog(spec.commandLine().getErr(), talk.verbose());
    FileWalk walk = FileWalk.over(files);
    walk.findings().forEach(finding -> log.say(finding.sentence()));
    Sent sent = overWeb ? overWeb(walk, log) : overDimse(walk, log);
    print(sent.result(), sent.committed());
    boolean kept = sent.committed().isEmpty() || sent.committed().get().failures().isEmpty();
    if (sent.result().failures().isEmpty() && walk.findings().isEmpty() && kept) {
      return 0;
    }
    return sent.result().sent() + sent.result().sentBefore() > 0 ? SOME : NOTHING;
  }

  private Sent overWeb(FileWalk walk, NetworkLog log) throws IOException {
    SendResult result =
        WebSender.send(webSettings(), walk.files(), Optional.ofNullable(journal), log);
    return new Sent(result, Optional.empty());
  }

  private Sent overDimse(FileWalk walk, NetworkLog log) throws IOException {
    CallerSettings settings = settings();
    List<SentObject> acknowledged = new ArrayList<>();
    SendResult result =
        StorageSender.send(
            settings, walk.files(), Optional.ofNullable(journal), log, acknowledged::add);
    return new Sent(result, commit.ask(settings, acknowledged, tls.trusted(), log));
  }

  /** What was sent and, when that was asked for, what the other side commits itself to. */
  private record Sent(SendResult result, Optional<CommitResult> committed) {}

  private WebSettings webSettings() throws IOException {
    return web.settings(spec.commandLine(), to, tls, timeout, retries);
  }

  private int echo(boolean overWeb) throws IOException {
    try {
      if (overWeb) {
        WebSender.probe(webSettings());
      } else {
        StorageSender.echo(settings());
      }
    } catch (IOException e) {
      spec.commandLine()
          .getErr()
          .println(PlainText.of("isopach: " + to + " does not answer: " + e.getMessage()));
      spec.commandLine().getErr().flush();
      return NOTHING;
    }
    PrintWriter out = spec.commandLine().getOut();
    if (talk.json()) {
      ResultJson.print(out, ResultJson.JSON.createObjectNode().put("answers", true));
    } else {
      out.println(to + " answers");
    }
    out.flush();
    return 0;
  }

  private CallerSettings settings() throws IOException {
    if (retries < 0 || timeout < 1) {
      throw new ParameterException(
          spec.commandLine(), "--retries must be at least 0 and --timeout at least 1");
    }
    try {
      return new CallerSettings(
          ApplicationTitle.checked(aet),
          Destination.of(to),
          Duration.ofSeconds(timeout),
          tls.context(spec.commandLine(), commit.hasPort()),
          retries);
    } catch (IllegalArgumentException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage(), e);
    }
  }

  private void print(SendResult result, Optional<CommitResult> committed) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    if (talk.json()) {
      ObjectNode node = ResultJson.JSON.valueToTree(result);
      committed.ifPresent(one -> node.set("commitment", ResultJson.JSON.valueToTree(one)));
      ResultJson.print(out, node);
    } else {
      out.println(
          result.sent()
              + " objects sent, "
              + result.sentBefore()
              + " sent before, "
              + result.failures().size()
              + " not acknowledged, "
              + result.notDicom()
              + " files of other kinds");
      committed.ifPresent(
          one ->
              out.println(
                  one.committed() + " committed, " + one.failures().size() + " not committed"));
    }
    out.flush();
  }
}

package org.isopach.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.net.SocketException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import javax.net.ssl.SSLException;
import org.isopach.dicom.network.AddressRange;
import org.isopach.dicom.network.ApplicationTitle;
import org.isopach.dicom.network.ArchiveClient;
import org.isopach.dicom.network.AssociationException;
import org.isopach.dicom.network.CallerSettings;
import org.isopach.dicom.network.Destination;
import org.isopach.dicom.network.FoundStudy;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.NetworkEvents;
import org.isopach.dicom.network.RetrieveResult;
import org.isopach.dicom.network.StorageListener;
import org.isopach.dicom.network.StudyQuery;
import org.isopach.dicom.web.WebSettings;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach fetch}. */
@Command(
    name = "fetch",
    description =
        "Asks an archive for studies (C-FIND) and fetches them: over the same connection (C-GET),"
            + " or with --port to a listener of our own (C-MOVE). A DICOMweb server is asked with"
            + " QIDO-RS and WADO-RS.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:every study found was fetched, or listed",
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 3:some objects were not fetched",
      " 4:no study was found, or the archive did not answer"
    },
    footer = {"", Cautions.LINE})
final class FetchCommand implements Callable<Integer> {
  static final int SOME = 3;
  static final int NOTHING = 4;
  private static final int LARGEST_PORT = 65535;

  @Spec private CommandSpec spec;
  @Mixin private TlsOptions tls;
  @Mixin private WebOptions web;

  @Option(
      names = "--from",
      paramLabel = "PEER",
      required = true,
      description = "The archive: AET@HOST:PORT, or the base URL of a DICOMweb server.")
  private String from;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Where objects go; without this option studies are listed only.")
  private Path out;

  @Option(
      names = "--patient",
      paramLabel = "ID",
      defaultValue = "",
      description = "Studies of this patient; the whole Patient ID.")
  private String patient;

  @Option(
      names = "--study",
      paramLabel = "UID",
      defaultValue = "",
      description = "The study with this Study Instance UID.")
  private String study;

  @Option(
      names = "--date",
      paramLabel = "DATES",
      defaultValue = "",
      description = "Studies of a day or range, such as 20260131 or 20260101-20260131.")
  private String dates;

  @Option(
      names = "--aet",
      paramLabel = "NAME",
      defaultValue = "ISOPACH",
      description = "Our application entity title. Default: ${DEFAULT-VALUE}.")
  private String aet;

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "Fetch by C-MOVE to this port; the archive must know our title with it.")
  private Integer port;

  @Option(
      names = "--allow-from",
      paramLabel = "RANGE",
      split = ",",
      description =
          "With --port: where the archive calls from, such as 192.0.2.7 or 10.1.0.0/16, if not from"
              + " the addresses of the host in --from.")
  private List<String> addresses = List.of();

  @Option(
      names = "--timeout",
      paramLabel = "SECONDS",
      defaultValue = "60",
      description = "How long an answer is waited for. Default: ${DEFAULT-VALUE}.")
  private int timeout;

  @Option(
      names = "--retries",
      paramLabel = "N",
      defaultValue = "5",
      description =
          "With a URL: how often what failed for the moment is tried again. Default:"
              + " ${DEFAULT-VALUE}.")
  private int retries;

  @Option(
      names = {"-v", "--verbose"},
      description = "Say more on standard error: each object kept.")
  private boolean verbose;

  @Override
  public Integer call() throws Exception {
    NetworkLog log = new NetworkLog(spec.commandLine().getErr(), verbose);
    if (web.meant(spec.commandLine(), from)) {
      return new WebFetch(spec.commandLine().getOut(), out).run(webSettings(), query(), log);
    }
    CallerSettings settings = settings();
    ArchiveClient archive = new ArchiveClient(settings, log);
    StudyQuery query = query();
    List<FoundStudy> found;
    try {
      found = archive.find(query);
    } catch (IOException e) {
      log.say(settings.to() + ": " + e.getMessage());
      return NOTHING;
    }
    print(spec.commandLine().getOut(), found);
    if (found.isEmpty() || out == null) {
      return found.isEmpty() ? NOTHING : 0;
    }
    boolean whole = port == null ? byGet(archive, found, log) : byMove(archive, found, log);
    return whole ? 0 : SOME;
  }

  private boolean byGet(ArchiveClient archive, List<FoundStudy> found, NetworkLog log)
      throws IOException {
    boolean whole = true;
    for (FoundStudy one : found) {
      try {
        whole &= said(one, archive.get(one, out));
      } catch (AssociationException | SocketException | SSLException e) {
        whole = false;
        log.say(one.studyUid() + ": " + e.getMessage());
      }
    }
    return whole;
  }

  private boolean byMove(ArchiveClient archive, List<FoundStudy> found, NetworkLog log)
      throws IOException {
    boolean whole = true;
    ListenerSettings listening = archive.port(port, out, tls.trusted(), allowed());
    Set<String> studies = found.stream().map(FoundStudy::studyUid).collect(Collectors.toSet());
    try (StorageListener listener = StorageListener.start(listening, studies, log)) {
      log.event(NetworkEvents.Kind.DONE, "listening on port " + listener.port());
      for (FoundStudy one : found) {
        try {
          whole &= said(one, archive.move(one, listener));
        } catch (AssociationException | SocketException | SSLException e) {
          whole = false;
          log.say(one.studyUid() + ": " + e.getMessage());
        }
      }
    }
    return whole;
  }

  private boolean said(FoundStudy study, RetrieveResult result) {
    PrintWriter writer = spec.commandLine().getOut();
    writer.printf(
        "%s: %d objects fetched, %d not%s%n",
        study.studyUid(),
        result.completed(),
        result.failed(),
        result.whole()
            ? ""
            : PlainText.of(String.format(" (%04X %s)", result.status(), result.comment())));
    writer.flush();
    return result.whole();
  }

  /** Says which studies were found. */
  static void print(PrintWriter writer, List<FoundStudy> found) {
    writer.println(found.size() + " studies found");
    for (FoundStudy one : found) {
      writer.println(
          PlainText.of(
              "  "
                  + one.studyUid()
                  + "  "
                  + one.date()
                  + "  "
                  + one.modalities()
                  + "  "
                  + one.instances()
                  + " objects"));
    }
    writer.flush();
  }

  private StudyQuery query() {
    try {
      return new StudyQuery(patient, study, dates);
    } catch (IllegalArgumentException e) {
      throw wrong(e);
    }
  }

  private WebSettings webSettings() throws IOException {
    if (port != null || !addresses.isEmpty()) {
      throw new ParameterException(
          spec.commandLine(), "--port and --allow-from are for C-MOVE, not for a URL");
    }
    return web.settings(spec.commandLine(), from, tls, timeout, retries);
  }

  private CallerSettings settings() throws IOException {
    if (timeout < 1 || (port != null && (port < 1 || port > LARGEST_PORT))) {
      throw wrong(
          new IllegalArgumentException(
              "--timeout must be at least 1 and --port from 1 to " + LARGEST_PORT));
    }
    if (!allowed().isEmpty() && port == null) {
      throw wrong(new IllegalArgumentException("--allow-from needs --port"));
    }
    if (out != null && Files.exists(out) && !Files.isDirectory(out)) {
      throw wrong(new IllegalArgumentException("'" + out + "' is a file; give a folder"));
    }
    try {
      return new CallerSettings(
          ApplicationTitle.checked(aet),
          Destination.of(from),
          Duration.ofSeconds(timeout),
          tls.context(spec.commandLine(), port != null),
          0);
    } catch (IllegalArgumentException e) {
      throw wrong(e);
    }
  }

  private List<AddressRange> allowed() {
    try {
      return addresses.stream().map(AddressRange::of).toList();
    } catch (IllegalArgumentException e) {
      throw wrong(e);
    }
  }

  private ParameterException wrong(IllegalArgumentException e) {
    return new ParameterException(spec.commandLine(), e.getMessage(), e);
  }
}

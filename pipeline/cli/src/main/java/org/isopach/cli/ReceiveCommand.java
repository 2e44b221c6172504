package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.stream.Collectors;
import org.isopach.dicom.network.AddressRange;
import org.isopach.dicom.network.ApplicationTitle;
import org.isopach.dicom.network.Destination;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.StorageListener;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach receive}. */
@Command(
    name = "receive",
    description =
        "Listens for DICOM objects (C-STORE, C-ECHO) until it is stopped, and keeps each once, in"
            + " folders by study and series. Who asks is told which objects are kept (storage"
            + " commitment).",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 130, 143:it was stopped; open associations got ten seconds to end"
    },
    footer = {"", Cautions.LINE})
final class ReceiveCommand implements Callable<Integer> {
  private static final int LARGEST_PORT = 65535;
  private static final int MOST_ASSOCIATIONS = 1000;

  @Spec private CommandSpec spec;
  @Mixin private TlsOptions tls;

  @Option(
      names = "--port",
      paramLabel = "N",
      required = true,
      description = "TCP port to listen on; 0 for any free one, which is then printed.")
  private int port;

  @Option(
      names = "--aet",
      paramLabel = "NAME",
      required = true,
      description = "Our application entity title; who calls another one is rejected.")
  private String aet;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      required = true,
      description = "Where objects go; made if need be. One listener per folder.")
  private Path out;

  @Option(
      names = "--allow-aet",
      paramLabel = "NAME",
      split = ",",
      description = "Titles that may call, separated by commas; all without this option.")
  private List<String> callers = List.of();

  @Option(
      names = "--allow-from",
      paramLabel = "RANGE",
      split = ",",
      description =
          "Addresses calls may come from, such as 192.0.2.7 or 10.1.0.0/16; all without this"
              + " option.")
  private List<String> addresses = List.of();

  @Option(
      names = "--commit-to",
      paramLabel = "AET@HOST:PORT",
      split = ",",
      description =
          "Report storage commitment to these applications by calling them, separated by commas;"
              + " to all others on the connection they asked on.")
  private List<String> commitTo = List.of();

  @Option(
      names = "--max-associations",
      paramLabel = "N",
      defaultValue = "" + ListenerSettings.ASSOCIATIONS,
      description = "Open at once; more are rejected for the moment. Default: ${DEFAULT-VALUE}.")
  private int mostAssociations;

  @Option(
      names = "--max-object-mib",
      paramLabel = "N",
      defaultValue = "4096",
      description = "The longest object taken, in MiB. Default: ${DEFAULT-VALUE}.")
  private long mostMib;

  @Option(
      names = "--timeout",
      paramLabel = "SECONDS",
      defaultValue = "60",
      description = "How long a silent peer is waited for. Default: ${DEFAULT-VALUE}.")
  private int timeout;

  @Option(
      names = {"-v", "--verbose"},
      description = "Say more on standard error: each object kept, each association.")
  private boolean verbose;

  @Override
  public Integer call() throws Exception {
    ListenerSettings settings = settings();
    NetworkLog log = new NetworkLog(spec.commandLine().getErr(), verbose);
    CountDownLatch stopped = new CountDownLatch(1);
    StorageListener listener = StorageListener.start(settings, log);
    Thread stop = new Thread(() -> stop(listener, log, stopped), "stop");
    Runtime.getRuntime().addShutdownHook(stop);
    spec.commandLine().getOut().println(settings.aet() + " listens on port " + listener.port());
    spec.commandLine().getOut().flush();
    log.say(listener.size() + " objects are kept in " + out);
    stopped.await();
    return 0;
  }

  private static void stop(StorageListener listener, NetworkLog log, CountDownLatch stopped) {
    try {
      listener.close();
      log.say("stopped; " + listener.size() + " objects are kept");
    } catch (IOException e) {
      log.say("stopped, but: " + e.getMessage());
    } finally {
      stopped.countDown();
    }
  }

  private ListenerSettings settings() throws IOException {
    between("--port", port, 0, LARGEST_PORT);
    between("--max-associations", mostAssociations, 1, MOST_ASSOCIATIONS);
    between("--max-object-mib", mostMib, 1, Integer.MAX_VALUE);
    between("--timeout", timeout, 1, Duration.ofDays(1).toSeconds());
    if (Files.exists(out) && !Files.isDirectory(out)) {
      throw wrong("'" + out + "' is a file; give a folder");
    }
    try {
      Set<String> titles =
          callers.stream().map(ApplicationTitle::checked).collect(Collectors.toSet());
      return new ListenerSettings(
          port,
          ApplicationTitle.checked(aet),
          out,
          titles,
          addresses.stream().map(AddressRange::of).toList(),
          mostAssociations,
          mostMib << 20,
          Duration.ofSeconds(timeout),
          tls.context(spec.commandLine(), true),
          tls.trusted(),
          commitTo.stream().map(Destination::of).toList());
    } catch (IllegalArgumentException e) {
      throw wrong(e.getMessage());
    }
  }

  private void between(String option, long value, long least, long most) {
    if (value < least || value > most) {
      throw wrong(option + " must be from " + least + " to " + most + ", was " + value);
    }
  }

  private ParameterException wrong(String what) {
    return new ParameterException(spec.commandLine(), what);
  }
}

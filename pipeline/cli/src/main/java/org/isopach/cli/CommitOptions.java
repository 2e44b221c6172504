package org.isopach.cli;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.network.CallerSettings;
import org.isopach.dicom.network.CommitResult;
import org.isopach.dicom.network.CommitmentClient;
import org.isopach.dicom.network.NetworkEvents;
import org.isopach.dicom.network.SentObject;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** Whether and how the peer is asked to commit itself to what it was sent. */
final class CommitOptions {
  private static final int LARGEST_PORT = 65535;

  @Option(
      names = "--commit",
      description =
          "Then ask the other application to commit itself to keep what it acknowledged, and wait"
              + " for its report as long as --timeout says.")
  private boolean commit;

  @Option(
      names = "--port",
      paramLabel = "N",
      description =
          "With --commit, also take the report on this port; the other application must know our"
              + " title with it.")
  private Integer port;

  boolean hasPort() {
    return port != null;
  }

  void check(CommandLine line, boolean overWeb) {
    if (overWeb && commit) {
      throw new ParameterException(
          line, "--commit is for AET@HOST:PORT; DICOMweb knows no storage commitment");
    }
    if (hasPort() && !commit) {
      throw new ParameterException(line, "--port needs --commit");
    }
    if (hasPort() && (port < 1 || port > LARGEST_PORT)) {
      throw new ParameterException(
          line, "--port must be from 1 to " + LARGEST_PORT + ", was " + port);
    }
  }

  /** Asks; empty when that is not wanted. */
  Optional<CommitResult> ask(
      CallerSettings settings, List<SentObject> objects, boolean trusted, NetworkEvents log)
      throws IOException {
    if (!commit) {
      return Optional.empty();
    }
    return Optional.of(
        CommitmentClient.commit(
            settings,
            objects,
            Optional.ofNullable(port).map(one -> CommitmentClient.port(settings, one, trusted)),
            log));
  }
}

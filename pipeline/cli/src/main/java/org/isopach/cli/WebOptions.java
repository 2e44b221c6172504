package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import org.isopach.dicom.web.WebAddress;
import org.isopach.dicom.web.WebCredentials;
import org.isopach.dicom.web.WebService;
import org.isopach.dicom.web.WebSettings;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** How a DICOMweb server is called. */
final class WebOptions {
  @Option(
      names = "--login-file",
      paramLabel = "FILE",
      description = "With a URL: NAME:PASSWORD for the server, as the only line of this file.")
  private Path login;

  @Option(
      names = "--token-file",
      paramLabel = "FILE",
      description = "With a URL: a bearer token for the server, as the only line of this file.")
  private Path token;

  @Option(
      names = "--plain-login",
      description = "Let login or token go over http, readable on the way, to another machine too.")
  private boolean plain;

  /** Returns whether a peer is named by a URL; if not, no login may be given. */
  boolean meant(CommandLine line, String peer) {
    boolean url = WebAddress.meant(peer);
    if (!url && (login != null || token != null)) {
      throw new ParameterException(line, "--login-file and --token-file need a URL");
    }
    return url;
  }

  /** Returns the settings of a call. */
  WebSettings settings(CommandLine line, String url, TlsOptions tls, int timeout, int retries)
      throws IOException {
    if (retries < 0 || timeout < 1) {
      throw new ParameterException(line, "--retries must be at least 0 and --timeout at least 1");
    }
    try {
      return WebSettings.checked(
          new WebSettings(
              WebService.of(url),
              credentials(line),
              Duration.ofSeconds(timeout),
              tls.context(line, false),
              retries),
          plain);
    } catch (IllegalArgumentException e) {
      throw new ParameterException(line, e.getMessage(), e);
    }
  }

  private Optional<WebCredentials> credentials(CommandLine line) throws IOException {
    if (login != null && token != null) {
      throw new ParameterException(line, "give --login-file or --token-file, not both");
    }
    if (login != null) {
      return Optional.of(WebCredentials.password(login));
    }
    return token == null ? Optional.empty() : Optional.of(WebCredentials.token(token));
  }
}

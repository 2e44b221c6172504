package org.isopach.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javax.net.ssl.SSLContext;
import org.isopach.dicom.network.TlsFiles;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** How a connection is secured. */
final class TlsOptions {
  @Option(
      names = "--tls-key",
      paramLabel = "FILE",
      description = "Use TLS, with the private key and certificates in this PKCS #12 file.")
  private Path key;

  @Option(
      names = "--tls-trust",
      paramLabel = "FILE",
      description =
          "Use TLS, and trust the certificates in this PKCS #12 file and whoever they signed. A"
              + " listener then takes no peer without such a certificate.")
  private Path trust;

  @Option(
      names = "--tls-password-file",
      paramLabel = "FILE",
      description = "The password of both files, as the only line of this file.")
  private Path passwordFile;

  boolean trusted() {
    return trust != null;
  }

  /** Returns what to secure connections with, or empty for plain ones. */
  Optional<SSLContext> context(CommandLine line, boolean keyNeeded) throws IOException {
    if (key == null && trust == null) {
      return Optional.empty();
    }
    if (keyNeeded && key == null) {
      throw new ParameterException(line, "TLS needs --tls-key here");
    }
    if (passwordFile == null) {
      throw new ParameterException(line, "TLS needs --tls-password-file");
    }
    String password = Files.readString(passwordFile, StandardCharsets.UTF_8).strip();
    return Optional.of(
        TlsFiles.context(
            Optional.ofNullable(key), Optional.ofNullable(trust), password.toCharArray()));
  }
}

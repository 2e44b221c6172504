package org.isopach.dicom.web;

import java.time.Duration;
import java.util.Optional;
import javax.net.ssl.SSLContext;

/**
 * How a DICOMweb service is called.
 *
 * @param service where it is
 * @param credentials what it knows us by; empty when it asks for nothing
 * @param patience how long a silent server is waited for
 * @param tls how an https connection is secured; empty for what Java trusts
 * @param retries how often what failed for the moment is tried again
 */
public record WebSettings(
    WebService service,
    Optional<WebCredentials> credentials,
    Duration patience,
    Optional<SSLContext> tls,
    int retries) {
  /**
   * Checks that settings fit together.
   *
   * @param openly whether credentials may go over plain http to another machine
   * @throws IllegalArgumentException when credentials could be read on the way, or keys for TLS
   *     would not be used
   */
  public static WebSettings checked(WebSettings settings, boolean openly) {
    WebAddress address = settings.service().address();
    if (settings.credentials().isPresent()
        && !address.secured()
        && !address.loopback()
        && !openly) {
      throw new IllegalArgumentException(
          "over http to another machine anybody on the way can read the credentials; use https");
    }
    if (settings.tls().isPresent() && !address.secured()) {
      throw new IllegalArgumentException("TLS needs a URL that begins with https");
    }
    return settings;
  }
}

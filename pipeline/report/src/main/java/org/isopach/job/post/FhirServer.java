package org.isopach.job.post;

import java.net.URI;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import javax.net.ssl.SSLContext;
import org.isopach.dicom.web.WebAddress;

/**
 * A server of FHIR and how it is called.
 *
 * @param base its base address
 * @param tls what connections are secured with; empty for what Java trusts
 * @param token bearer token that says who we are; empty for none
 * @param timeout how long a connection, and then a whole answer, is waited for
 * @param retries how often a transaction is sent again, at least 0
 */
public record FhirServer(
    URI base, Optional<SSLContext> tls, Optional<String> token, Duration timeout, int retries) {
  private static final String TOKEN = "[\\x21-\\x7e]+";

  /**
   * @throws IllegalArgumentException when a token has characters that no header carries, or the
   *     server is to be called by plain HTTP over TLS
   */
  public FhirServer {
    Objects.requireNonNull(base, "base");
    Objects.requireNonNull(tls, "tls");
    Objects.requireNonNull(timeout, "timeout");
    if (retries < 0) {
      throw new IllegalArgumentException("retries must be at least 0, was " + retries);
    }
    if (token.isPresent() && !token.get().matches(TOKEN)) {
      throw new IllegalArgumentException("a token is one line of visible ASCII characters");
    }
    if (tls.isPresent() && !new WebAddress(base).secured()) {
      throw new IllegalArgumentException("TLS needs an address that begins with https://");
    }
  }

  /**
   * Returns an address as a base, or says why it is none.
   *
   * @param plain whether other machines may be called by plain HTTP
   * @throws IllegalArgumentException when it is no address of a server, or would be called in the
   *     open
   */
  public static URI base(String text, boolean plain) {
    WebAddress address = WebAddress.of(text);
    if (!address.secured() && !plain && !address.loopback()) {
      throw new IllegalArgumentException(
          "patients' data would go to "
              + address.uri().getHost()
              + " in the open; use https://, or --plain if the way there is safe");
    }
    return address.uri();
  }

  /** Says where it is, and not the token. */
  @Override
  public String toString() {
    return base.toString();
  }
}

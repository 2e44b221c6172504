package org.isopach.dicom.web;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * The base URL of a server. It names a scheme of the web and a host, and nothing that is a
 * request's or must not be printed.
 *
 * @param uri as it was given
 */
public record WebAddress(URI uri) {
  private static final Pattern LOOPBACK =
      Pattern.compile("localhost|127\\.[0-9]{1,3}\\.[0-9]{1,3}\\.[0-9]{1,3}|\\[::1\\]");

  /**
   * @throws IllegalArgumentException when the URL has another form; the message does not repeat it,
   *     since it may hold a password
   */
  public WebAddress {
    if (!meant(uri.toString()) || uri.getHost() == null) {
      throw new IllegalArgumentException("a URL is such as https://server.example/path");
    }
    if (uri.getRawUserInfo() != null) {
      throw new IllegalArgumentException("names and passwords do not belong into a URL");
    }
    if (uri.getRawQuery() != null || uri.getRawFragment() != null) {
      throw new IllegalArgumentException("give the base URL, without '?' and '#'");
    }
  }

  /** Returns whether a text is meant as a URL of the web. */
  public static boolean meant(String text) {
    String start = text.toLowerCase(Locale.ROOT);
    return start.startsWith("http://") || start.startsWith("https://");
  }

  /**
   * Reads a base URL.
   *
   * @throws IllegalArgumentException when it has another form
   */
  public static WebAddress of(String text) {
    try {
      return new WebAddress(new URI(text));
    } catch (URISyntaxException e) {
      throw new IllegalArgumentException("the URL cannot be read: " + e.getReason(), e);
    }
  }

  /** Returns whether nobody on the way can read along. */
  public boolean secured() {
    return "https".equalsIgnoreCase(uri.getScheme());
  }

  /** Returns whether the server is this machine, by its name. */
  public boolean loopback() {
    return LOOPBACK.matcher(uri.getHost().toLowerCase(Locale.ROOT)).matches();
  }

  @Override
  public String toString() {
    return uri.toString();
  }
}

package org.isopach.dicom.web;

import java.net.URI;
import java.net.URISyntaxException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Where a DICOMweb service is.
 *
 * @param base its base URL, without a slash at the end
 */
public record WebService(URI base) {
  private static final Pattern LOOPBACK =
      Pattern.compile("localhost|127\\.[0-9]{1,3}\\.[0-9]{1,3}\\.[0-9]{1,3}|\\[::1\\]");

  /** Returns whether a text is meant as a URL of the web. */
  public static boolean meant(String text) {
    String start = text.toLowerCase(Locale.ROOT);
    return start.startsWith("http://") || start.startsWith("https://");
  }

  /**
   * Reads a base URL such as {@code https://archive.example/dicom-web}.
   *
   * @throws IllegalArgumentException when it has another form, or holds a user's name
   */
  public static WebService of(String text) {
    URI uri;
    try {
      uri = new URI(text.replaceFirst("/+$", ""));
    } catch (URISyntaxException e) {
      throw new IllegalArgumentException("the URL cannot be read: " + e.getReason(), e);
    }
    if (!meant(text) || uri.getHost() == null) {
      throw new IllegalArgumentException("a URL is such as https://archive.example/dicom-web");
    }
    if (uri.getRawUserInfo() != null) {
      throw new IllegalArgumentException("names and passwords do not belong into a URL");
    }
    if (uri.getRawQuery() != null || uri.getRawFragment() != null) {
      throw new IllegalArgumentException("give the base URL, without '?' and '#'");
    }
    return new WebService(uri);
  }

  /** Returns whether nobody on the way can read along. */
  boolean secured() {
    return "https".equalsIgnoreCase(base.getScheme());
  }

  /** Returns whether the server is this machine, by its name. */
  boolean loopback() {
    return LOOPBACK.matcher(base.getHost().toLowerCase(Locale.ROOT)).matches();
  }

  /**
   * Returns a resource of the service.
   *
   * @param path with a slash at the start
   * @param keys values are encoded; those that are empty are left out
   */
  URI resource(String path, Map<String, String> keys) {
    String query =
        keys.entrySet().stream()
            .filter(key -> !key.getValue().isEmpty())
            .map(key -> key.getKey() + "=" + encoded(key.getValue()))
            .collect(Collectors.joining("&"));
    return URI.create(base + path + (query.isEmpty() ? "" : "?" + query));
  }

  private static String encoded(String value) {
    return URLEncoder.encode(value, StandardCharsets.UTF_8).replace("+", "%20");
  }

  @Override
  public String toString() {
    return base.toString();
  }
}

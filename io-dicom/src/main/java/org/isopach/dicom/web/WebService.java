package org.isopach.dicom.web;

import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Where a DICOMweb service is.
 *
 * @param address its base URL, without a slash at the end
 */
public record WebService(WebAddress address) {
  /**
   * Reads a base URL such as {@code https://archive.example/dicom-web}.
   *
   * @throws IllegalArgumentException when it has another form, or holds a user's name
   */
  public static WebService of(String text) {
    return new WebService(WebAddress.of(text.replaceFirst("/+$", "")));
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
    return URI.create(address + path + (query.isEmpty() ? "" : "?" + query));
  }

  private static String encoded(String value) {
    return URLEncoder.encode(value, StandardCharsets.UTF_8).replace("+", "%20");
  }

  @Override
  public String toString() {
    return address.toString();
  }
}

package org.isopach.dicom.web;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.regex.Pattern;

/** What a server knows us by (RFC 7617, RFC 6750). It is never printed. */
public final class WebCredentials {
  private static final long LONGEST = 16 * 1024;
  private static final Pattern TOKEN = Pattern.compile("[A-Za-z0-9._~+/-]+=*");

  private final String header;

  private WebCredentials(String header) {
    this.header = header;
  }

  /**
   * Reads {@code NAME:PASSWORD}, the only line of a file.
   *
   * @throws IllegalArgumentException when the file holds something else
   */
  public static WebCredentials password(Path file) throws IOException {
    String line = line(file);
    if (line.indexOf(':') < 1 || line.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException("'" + file + "' must hold one line NAME:PASSWORD");
    }
    byte[] bytes = line.getBytes(StandardCharsets.UTF_8);
    return new WebCredentials("Basic " + Base64.getEncoder().encodeToString(bytes));
  }

  /**
   * Reads a bearer token, the only line of a file.
   *
   * @throws IllegalArgumentException when the file holds something else
   */
  public static WebCredentials token(Path file) throws IOException {
    String line = line(file);
    if (!TOKEN.matcher(line).matches()) {
      throw new IllegalArgumentException("'" + file + "' must hold a token in one line");
    }
    return new WebCredentials("Bearer " + line);
  }

  private static String line(Path file) throws IOException {
    if (Files.size(file) > LONGEST) {
      throw new IllegalArgumentException("'" + file + "' is longer than a password or token");
    }
    return Files.readString(file, StandardCharsets.UTF_8).strip();
  }

  /** Returns the value of the Authorization header. */
  String header() {
    return header;
  }

  @Override
  public String toString() {
    return "credentials";
  }
}

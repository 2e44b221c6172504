package org.isopach.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Properties;

/**
 * The program that made a number.
 *
 * @param name its name
 * @param version its version, as the build stamped it
 */
public record Software(String name, String version) {
  /** Returns this program. */
  public static Software current() {
    Properties properties = new Properties();
    try (InputStream in = Software.class.getResourceAsStream("software.properties")) {
      properties.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException("the build left its version unreadable", e);
    }
    return new Software("Isopach", properties.getProperty("version"));
  }

  /** Returns name and version as one text. */
  public String title() {
    return name + " " + version;
  }
}

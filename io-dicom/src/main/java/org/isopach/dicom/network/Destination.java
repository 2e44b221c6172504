package org.isopach.dicom.network;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Who is called.
 *
 * @param aet its title
 * @param host name or address
 * @param port TCP port
 */
public record Destination(String aet, String host, int port) {
  private static final int LARGEST_PORT = 65535;
  private static final Pattern FORM =
      Pattern.compile("([^@]+)@(\\[[0-9a-fA-F:]+\\]|[^:@\\[\\]]+):([0-9]{1,5})");

  /**
   * Reads {@code AET@HOST:PORT}.
   *
   * @throws IllegalArgumentException when the text has another form
   */
  public static Destination of(String text) {
    Matcher form = FORM.matcher(text);
    if (!form.matches()) {
      throw new IllegalArgumentException("'" + text + "' is not of the form AET@HOST:PORT");
    }
    int port = Integer.parseInt(form.group(3));
    if (port < 1 || port > LARGEST_PORT) {
      throw new IllegalArgumentException("'" + text + "': a port is 1 to " + LARGEST_PORT);
    }
    return new Destination(ApplicationTitle.checked(form.group(1)), form.group(2), port);
  }

  @Override
  public String toString() {
    return aet + "@" + host + ":" + port;
  }
}

package org.isopach.dicom.web;

import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A Content-Type (RFC 9110, 8.3.1).
 *
 * @param name type and subtype, in small letters; empty when there is none
 * @param parameters by their names in small letters, without quotation marks
 */
record MediaType(String name, Map<String, String> parameters) {
  private static final int LONGEST = 1024;
  private static final String TOKEN = "[!#$%&'*+.^_`|~0-9A-Za-z-]+";
  private static final Pattern NAME = Pattern.compile("\\s*(" + TOKEN + "/" + TOKEN + ")\\s*");
  private static final Pattern PARAMETER =
      Pattern.compile(";\\s*(" + TOKEN + ")=(?:\"([^\"\\\\]*)\"|(" + TOKEN + "))\\s*");

  /**
   * Reads a header's value.
   *
   * @throws WebException when it has another form
   */
  static MediaType of(String text) throws WebException {
    Matcher name = NAME.matcher(text);
    if (text.length() > LONGEST || !name.lookingAt()) {
      throw WebException.lasting("the answer has no sound Content-Type");
    }
    Map<String, String> parameters = new TreeMap<>();
    Matcher parameter = PARAMETER.matcher(text);
    int at = name.end();
    while (at < text.length()) {
      if (!parameter.find(at) || parameter.start() != at) {
        throw WebException.lasting("the answer has no sound Content-Type");
      }
      String value = parameter.group(2) == null ? parameter.group(3) : parameter.group(2);
      parameters.putIfAbsent(parameter.group(1).toLowerCase(Locale.ROOT), value);
      at = parameter.end();
    }
    return new MediaType(name.group(1).toLowerCase(Locale.ROOT), parameters);
  }

  /** Returns a parameter; empty when absent. */
  String parameter(String key) {
    return parameters.getOrDefault(key, "");
  }
}

package org.isopach.report.fhir;

import java.net.URI;
import java.net.URISyntaxException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Pattern;

/** Text and names of DICOM in the form that FHIR has for them; needs no FHIR library. */
public final class FhirText {
  /** System of identifiers that are DICOM UIDs. */
  static final String DICOM_UID = "urn:dicom:uid";

  private static final Pattern UID = Pattern.compile("[0-2](\\.(0|[1-9][0-9]*))+");
  private static final int LONGEST_UID = 64;

  private FhirText() {}

  /** Returns whether a text is a UID, which alone can stand as the OID that FHIR makes of it. */
  public static boolean isUid(String text) {
    return text.length() <= LONGEST_UID && UID.matcher(text).matches();
  }

  /** Returns whether FHIR allows a text as a string: something to see, no control character. */
  public static boolean isString(String text) {
    return !text.isBlank() && text.codePoints().noneMatch(Character::isISOControl);
  }

  /** Returns a DICOM UID as the value of an identifier of {@link #DICOM_UID}. */
  static String ofUid(String uid) {
    return "urn:oid:" + uid;
  }

  /** Returns a UUID that is the same for the same name. */
  static String uuid(String name) {
    return UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)).toString();
  }

  /**
   * Returns the system that an issuer's identifiers belong to: the issuer itself where it is a URI
   * or an OID, else a URI made of its name. Empty without an issuer: nobody knows then whose the
   * identifier is.
   */
  static Optional<String> system(String issuer) {
    if (issuer.isEmpty()) {
      return Optional.empty();
    }
    if (isUid(issuer)) {
      return Optional.of(ofUid(issuer));
    }
    return Optional.of(
        isAbsolute(issuer) ? issuer : "urn:uuid:" + uuid("Issuer of Patient ID " + issuer));
  }

  /** Returns the query for an identifier (FHIR R4, "Search": token, and its escaping). */
  public static String search(String system, String value) {
    String token = system + "|" + value.replaceAll("([\\\\$,|])", "\\\\$1");
    return "identifier=" + URLEncoder.encode(token, StandardCharsets.UTF_8).replace("+", "%20");
  }

  private static boolean isAbsolute(String text) {
    try {
      URI uri = new URI(text);
      return uri.isAbsolute()
          && (text.startsWith("urn:") || text.startsWith("http://") || text.startsWith("https://"));
    } catch (URISyntaxException e) {
      return false;
    }
  }
}

package org.isopach.dicom.web;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.isopach.dicom.web.DicomJson.Item;

/** What a server says of each object it was to store (PS3.18, 10.5.3 and annex I). */
final class StoreResponse {
  private static final String REFERENCED = "00081199";
  private static final String FAILED = "00081198";
  private static final String INSTANCE_UID = "00081155";
  private static final String WARNING_REASON = "00081196";
  private static final String FAILURE_REASON = "00081197";
  private static final Set<String> WANTED =
      Set.of(REFERENCED, FAILED, INSTANCE_UID, WARNING_REASON, FAILURE_REASON);
  private static final int MOST_ITEMS = 10_000;
  private static final long LONGEST = 16L << 20;

  private final Map<String, Outcome> outcomes = new TreeMap<>();

  /**
   * What became of an object.
   *
   * @param kept whether the server has it
   * @param reason of a warning or failure, four hexadecimal digits; empty when none was given
   */
  record Outcome(boolean kept, String reason) {}

  private StoreResponse() {}

  /**
   * Reads an answer; one that is no such response names no object.
   *
   * @throws IOException when it breaks off, or is too long
   */
  static StoreResponse of(WebAnswer answer) throws IOException {
    StoreResponse response = new StoreResponse();
    String type = answer.header("content-type");
    if (type.isEmpty() && answer.status() != WebAnswer.OK) {
      return response;
    }
    BoundedStream body = new BoundedStream(answer.body(), LONGEST, "the answer to a store request");
    try {
      for (Item item : DicomJson.read(body, WANTED, MOST_ITEMS)) {
        response.add(item);
      }
    } catch (WebException e) {
      if (WebException.of(e) != WebException.Kind.LASTING) {
        throw e;
      }
    }
    return response;
  }

  private void add(Item item) {
    for (Item one : item.sequence(REFERENCED)) {
      outcomes.put(one.text(INSTANCE_UID), new Outcome(true, hex(one.text(WARNING_REASON))));
    }
    for (Item one : item.sequence(FAILED)) {
      outcomes.put(one.text(INSTANCE_UID), new Outcome(false, hex(one.text(FAILURE_REASON))));
    }
  }

  private static String hex(String number) {
    return number.matches("[0-9]{1,5}") ? String.format("%04X", Integer.parseInt(number)) : "";
  }

  /** Returns what is said of an object, or empty when it is not named. */
  Optional<Outcome> outcome(String sopInstance) {
    return Optional.ofNullable(outcomes.get(sopInstance));
  }

  /** Returns whether no object is named. */
  boolean silent() {
    return outcomes.isEmpty();
  }
}

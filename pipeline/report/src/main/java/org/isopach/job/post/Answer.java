package org.isopach.job.post;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads what a server says of a transaction. */
final class Answer {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int MOST_ISSUES = 5;
  private static final int MOST_CHARACTERS = 800;

  private Answer() {}

  /**
   * Returns why a transaction does not count as taken, or empty when it does.
   *
   * @param entries how many entries it had
   */
  static Optional<String> refusal(Reply reply, int entries) {
    if (reply.good()) {
      return tree(reply.body()).filter(body -> isTaken(body, entries)).isPresent()
          ? Optional.empty()
          : Optional.of(
              "the server answered "
                  + reply.status()
                  + " without saying that it took every resource; is this the base of a FHIR"
                  + " server?");
    }
    if (reply.status() / 100 == 3) {
      return Optional.of(
          "the server points to "
              + reply.location().orElse("another place")
              + "; give that as --to");
    }
    String said = tree(reply.body()).map(Answer::outcome).orElse("");
    String hint = denied(reply) ? " (check --token-file and what its owner may do)" : "";
    return Optional.of(
        "the server answered " + reply.status() + hint + (said.isEmpty() ? "" : ": " + said));
  }

  /** Returns whether the server lets us do nothing at all. */
  static boolean denied(Reply reply) {
    return reply.status() == 401 || reply.status() == 403;
  }

  /** Returns how many resources were new to the server. */
  static int created(Reply reply) {
    int created = 0;
    for (JsonNode entry : tree(reply.body()).orElse(JSON.createObjectNode()).path("entry")) {
      created += entry.at("/response/status").asText().startsWith("201") ? 1 : 0;
    }
    return created;
  }

  private static boolean isTaken(JsonNode body, int entries) {
    if (!body.path("resourceType").asText().equals("Bundle")
        || !body.path("type").asText().equals("transaction-response")
        || body.path("entry").size() != entries) {
      return false;
    }
    for (JsonNode entry : body.path("entry")) {
      if (!entry.at("/response/status").asText().startsWith("2")) {
        return false;
      }
    }
    return true;
  }

  /** Returns the text of an OperationOutcome; empty for anything else. */
  private static String outcome(JsonNode body) {
    if (!body.path("resourceType").asText().equals("OperationOutcome")) {
      return "";
    }
    List<String> issues = new ArrayList<>();
    for (JsonNode issue : body.path("issue")) {
      if (issue.path("severity").asText().matches("fatal|error") && issues.size() < MOST_ISSUES) {
        issues.add(words(issue));
      }
    }
    String all = String.join("; ", issues);
    return all.length() > MOST_CHARACTERS ? all.substring(0, MOST_CHARACTERS) + "..." : all;
  }

  private static String words(JsonNode issue) {
    String text = issue.path("diagnostics").asText(issue.at("/details/text").asText());
    String place = issue.at("/expression/0").asText();
    return issue.path("code").asText()
        + (text.isEmpty() ? "" : ", " + text)
        + (place.isEmpty() ? "" : " (" + place + ")");
  }

  private static Optional<JsonNode> tree(String body) {
    try {
      return Optional.ofNullable(JSON.readTree(body)).filter(JsonNode::isObject);
    } catch (JsonProcessingException e) {
      return Optional.empty();
    }
  }
}

package org.isopach.job.post;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.Optional;
import org.isopach.report.fhir.FhirText;

/** A transaction as {@link org.isopach.report.fhir.FhirBundle} writes it, ready to be sent. */
final class Transaction {
  /** Keeps every digit: in FHIR 1.50 is not 1.5. */
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .enable(JsonGenerator.Feature.WRITE_BIGDECIMAL_AS_PLAIN)
          .build();

  private final JsonNode bundle;
  private final ObjectNode patient;

  private Transaction(JsonNode bundle, ObjectNode patient) {
    this.bundle = bundle;
    this.patient = patient;
  }

  /**
   * Reads a transaction.
   *
   * @throws IOException when it is none of ours; the message says so
   */
  static Transaction of(byte[] json) throws IOException {
    JsonNode bundle;
    try {
      bundle = JSON.readTree(json);
    } catch (JsonProcessingException e) {
      throw new IOException("it is not JSON: " + e.getOriginalMessage(), e);
    }
    if (bundle.path("type").asText().equals("transaction")) {
      for (JsonNode entry : bundle.path("entry")) {
        if (entry.at("/resource/resourceType").asText().equals("Patient")) {
          return new Transaction(bundle, (ObjectNode) entry);
        }
      }
    }
    throw new IOException("it is no FHIR transaction about a patient");
  }

  /** Returns the system of the patient's identifier; empty when nobody said whose it is. */
  Optional<String> patientSystem() {
    return Optional.of(patient.at("/resource/identifier/0/system").asText())
        .filter(text -> !text.isEmpty());
  }

  /** Files the visit under the patient with this identifier in a system of the server's own. */
  void under(String system) {
    String value = patientId();
    if (value.isEmpty()) {
      return;
    }
    ((ObjectNode) patient.at("/resource/identifier/0")).put("system", system);
    ((ObjectNode) patient.get("resource")).remove("id");
    ObjectNode request = JSON.createObjectNode();
    request.put("method", "POST");
    request.put("url", "Patient");
    request.put("ifNoneExist", FhirText.search(system, value));
    patient.set("request", request);
  }

  /** Returns why it must not be sent, or empty: numbers of nobody, or of one of several people. */
  Optional<String> obstacle() {
    if (patientId().isEmpty()) {
      return Optional.of(
          "its scans have no Patient ID; a server could not say whose numbers it has");
    }
    return patientSystem().isPresent()
        ? Optional.empty()
        : Optional.of(
            "its scans do not say who issued the Patient ID; name the system of the server's"
                + " patient identifiers with --patient-system");
  }

  private String patientId() {
    return patient.at("/resource/identifier/0/value").asText();
  }

  int entries() {
    return bundle.path("entry").size();
  }

  byte[] bytes() throws IOException {
    return JSON.writeValueAsBytes(bundle);
  }
}

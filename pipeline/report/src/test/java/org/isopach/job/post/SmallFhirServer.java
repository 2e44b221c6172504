package org.isopach.job.post;

import ca.uhn.fhir.context.FhirContext;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.isopach.report.fhir.R4Validator;

/**
 * A FHIR server as small as can be: takes transactions on loopback, has every one judged by the
 * validator of R4, does conditional creates and updates by id (FHIR R4, "RESTful API": transaction
 * and conditional create), and keeps the resources. What it is told to answer first, it answers
 * first.
 */
public final class SmallFhirServer implements AutoCloseable {
  /** An answer that is not one to a transaction; a status of 0 hangs up. */
  record Scripted(int status, String body, Map<String, String> headers) {
    static Scripted of(int status) {
      return new Scripted(status, "", Map.of());
    }
  }

  private static final FhirContext R4 = FhirContext.forR4Cached();

  private final HttpServer server;
  private final Map<String, Resource> kept = new LinkedHashMap<>();
  private final Map<String, String> byQuery = new HashMap<>();
  private final List<String> errors = new ArrayList<>();
  private final List<String> authorizations = new ArrayList<>();
  private final List<Scripted> script = new ArrayList<>();
  private int requests;

  /** Starts a server on a free port. */
  public SmallFhirServer() throws IOException {
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext("/r4", this::handle);
    server.start();
  }

  /** Returns the base to post to. */
  public URI base() {
    return URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/r4");
  }

  synchronized void answerFirst(Scripted... answers) {
    script.addAll(List.of(answers));
  }

  /** Returns the resources kept, by type and id. */
  public synchronized Map<String, Resource> kept() {
    return new LinkedHashMap<>(kept);
  }

  /** Returns what the validator said of all transactions. */
  public synchronized List<String> errors() {
    return List.copyOf(errors);
  }

  synchronized List<String> authorizations() {
    return List.copyOf(authorizations);
  }

  synchronized int requests() {
    return requests;
  }

  @Override
  public void close() {
    server.stop(0);
  }

  private synchronized void handle(HttpExchange exchange) throws IOException {
    try (exchange) {
      requests++;
      String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
      authorizations.add(String.valueOf(exchange.getRequestHeaders().getFirst("Authorization")));
      Scripted answer = script.isEmpty() ? transaction(body) : script.remove(0);
      if (answer.status() == 0) {
        return;
      }
      answer.headers().forEach(exchange.getResponseHeaders()::set);
      byte[] bytes = answer.body().getBytes(StandardCharsets.UTF_8);
      exchange.sendResponseHeaders(answer.status(), bytes.length == 0 ? -1 : bytes.length);
      exchange.getResponseBody().write(bytes);
    }
  }

  private Scripted transaction(String json) {
    Bundle bundle = R4.newJsonParser().parseResource(Bundle.class, json);
    List<String> found = R4Validator.errors(bundle);
    errors.addAll(found);
    if (!found.isEmpty()) {
      return outcome(422, found.get(0));
    }
    Bundle response = new Bundle().setType(Bundle.BundleType.TRANSACTIONRESPONSE);
    Map<String, String> places = new LinkedHashMap<>();
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      String place = place(entry.getRequest());
      places.put(entry.getFullUrl(), place);
      response.addEntry().getResponse().setStatus(kept.containsKey(place) ? "200" : "201");
    }
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      String place = places.get(entry.getFullUrl());
      if (entry.getRequest().getMethod() == Bundle.HTTPVerb.PUT || !kept.containsKey(place)) {
        kept.put(place, resolved(entry.getResource(), places));
      }
    }
    return new Scripted(200, R4.newJsonParser().encodeResourceToString(response), Map.of());
  }

  /** Returns type and id; a condition seen before is that of the resource it made. */
  private String place(Bundle.BundleEntryRequestComponent request) {
    if (request.getMethod() == Bundle.HTTPVerb.PUT) {
      return request.getUrl();
    }
    String query =
        request.getUrl()
            + "?"
            + URLDecoder.decode(request.getIfNoneExist(), StandardCharsets.UTF_8);
    return byQuery.computeIfAbsent(query, key -> request.getUrl() + "/" + (byQuery.size() + 1));
  }

  private static Resource resolved(Resource resource, Map<String, String> places) {
    String json = R4.newJsonParser().encodeResourceToString(resource);
    for (Map.Entry<String, String> place : places.entrySet()) {
      json = json.replace("\"" + place.getKey() + "\"", "\"" + place.getValue() + "\"");
    }
    return (Resource) R4.newJsonParser().parseResource(json);
  }

  /** Returns an error with words. */
  static Scripted outcome(int status, String words) {
    OperationOutcome outcome = new OperationOutcome();
    outcome
        .addIssue()
        .setSeverity(OperationOutcome.IssueSeverity.ERROR)
        .setCode(OperationOutcome.IssueType.PROCESSING)
        .setDiagnostics(words);
    return new Scripted(status, R4.newJsonParser().encodeResourceToString(outcome), Map.of());
  }
}

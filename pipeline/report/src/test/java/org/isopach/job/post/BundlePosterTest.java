package org.isopach.job.post;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Resource;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.report.Software;
import org.isopach.report.fhir.FhirVisit;
import org.isopach.report.fhir.SampleVisits;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Posting to a small server that judges what it gets, and that fails when it is told to. */
class BundlePosterTest {
  private static final Software SOFTWARE = new Software("Isopach", "0.1.0");
  private static final Eye NO_ISSUER = new Eye("TSEU-2", "", Laterality.LEFT);

  @TempDir Path run;

  private final List<Duration> pauses = new ArrayList<>();
  private final List<String> said = new ArrayList<>();
  private SmallFhirServer server;

  @BeforeEach
  void start() throws IOException {
    server = new SmallFhirServer();
  }

  @AfterEach
  void stop() {
    server.close();
  }

  @Test
  void postingTwiceLeavesOneSet() throws Exception {
    write(SampleVisits.visit());

    PostResult first = post(Optional.empty());
    Map<String, Resource> once = server.kept();
    PostResult second = post(Optional.empty());

    assertEquals(List.of(), server.errors());
    assertEquals(List.of(), first.failures());
    assertEquals(once.size(), first.posted().get(0).created());
    assertEquals(once.size(), first.posted().get(0).resources());
    assertEquals(0, second.posted().get(0).created());
    assertEquals(once.keySet(), server.kept().keySet());
    for (Map.Entry<String, Resource> kept : once.entrySet()) {
      assertTrue(kept.getValue().equalsDeep(server.kept().get(kept.getKey())), kept.getKey());
    }
  }

  @Test
  void everyReferenceLeadsToAResourceOfTheServer() throws Exception {
    write(SampleVisits.visit());

    post(Optional.empty());

    for (Resource resource : server.kept().values()) {
      if (resource instanceof Observation observation) {
        for (String place :
            List.of(
                observation.getSubject().getReference(),
                observation.getDevice().getReference(),
                observation.getDerivedFromFirstRep().getReference())) {
          assertTrue(server.kept().containsKey(place), place);
        }
      }
    }
  }

  @Test
  void twoEyesOfAStudyShareStudyAndPatient() throws Exception {
    Eye right = new Eye("TSEU-1", "Tern Sound Eye Unit", Laterality.RIGHT);
    write(SampleVisits.visit(), SampleVisits.of(right, "2.25.11"));

    post(Optional.empty());

    assertEquals(1, count("Patient"));
    assertEquals(1, count("ImagingStudy"));
    assertEquals(1, count("Device"));
    assertEquals(2, count("BodyStructure"));
  }

  @Test
  void whoseNumberItIsMustBeKnown() throws Exception {
    write(SampleVisits.of(NO_ISSUER, "2.25.11"));

    PostResult refused = post(Optional.empty());
    PostResult named = post(Optional.of("https://ids.example.org/tseu"));

    assertTrue(refused.failures().get(0).reason().contains("--patient-system"));
    assertEquals(1, named.posted().size(), named.toString());
    Patient patient =
        (Patient)
            server.kept().values().stream().filter(Patient.class::isInstance).findFirst().get();
    assertEquals("https://ids.example.org/tseu", patient.getIdentifierFirstRep().getSystem());
    assertEquals("TSEU-2", patient.getIdentifierFirstRep().getValue());
    assertEquals(1, count("Patient"));
    assertEquals(List.of(), server.errors());
  }

  @Test
  void numbersKeepTheirDigitsUnderAnotherSystem() throws Exception {
    write(SampleVisits.visit());
    post(Optional.of("urn:oid:2.25.77"));

    List<String> values =
        server.kept().values().stream()
            .filter(Observation.class::isInstance)
            .map(Observation.class::cast)
            .filter(Observation::hasValueQuantity)
            .map(one -> one.getValueQuantity().getValue().toPlainString())
            .toList();
    assertTrue(values.contains("251.500"), values.toString());
    assertTrue(values.contains("0.235500"), values.toString());
  }

  @Test
  void numbersOfNobodyAreNotSent() throws Exception {
    write(SampleVisits.of(new Eye("", "", Laterality.LEFT), "2.25.12"), SampleVisits.visit());

    PostResult result = post(Optional.of("urn:oid:2.25.77"));

    assertEquals(1, result.posted().size());
    assertEquals(1, result.failures().size());
    assertTrue(result.failures().get(0).reason().contains("no Patient ID"));
  }

  @Test
  void oneSystemIsNotGivenToPatientsOfTwoIssuers() throws Exception {
    Eye other = new Eye("TSEU-1", "Skerry Clinic", Laterality.RIGHT);
    write(SampleVisits.visit(), SampleVisits.of(other, "2.25.12"));

    assertThrows(IllegalArgumentException.class, () -> post(Optional.of("urn:oid:2.25.77")));
    assertEquals(0, server.requests());
  }

  @Test
  void sendsAgainWhereTheServerIsBusyOrHangsUp() throws Exception {
    write(SampleVisits.visit());
    server.answerFirst(
        SmallFhirServer.Scripted.of(503),
        SmallFhirServer.Scripted.of(0),
        new SmallFhirServer.Scripted(429, "", Map.of("Retry-After", "7")));

    PostResult result = post(Optional.empty());

    assertEquals(1, result.posted().size(), result.toString());
    assertEquals(4, server.requests());
    assertEquals(
        List.of(Duration.ofSeconds(1), Duration.ofSeconds(2), Duration.ofSeconds(7)), pauses);
    assertTrue(said.get(0).contains("503"), said.toString());
  }

  @Test
  void givesUpAfterSoManyTimes() throws Exception {
    write(SampleVisits.visit());
    for (int i = 0; i < 4; i++) {
      server.answerFirst(SmallFhirServer.outcome(503, "closed for tonight"));
    }

    PostResult result = post(Optional.empty());

    assertEquals(4, server.requests());
    String reason = result.failures().get(0).reason();
    assertEquals("the server answered 503: processing, closed for tonight", reason);
    assertEquals(0, server.kept().size());
  }

  @Test
  void saysWhatTheServerSaysAndGoesOn() throws Exception {
    Eye right = new Eye("TSEU-1", "Tern Sound Eye Unit", Laterality.RIGHT);
    write(SampleVisits.visit(), SampleVisits.of(right, "2.25.11"));
    server.answerFirst(SmallFhirServer.outcome(422, "Device is not wanted here"));

    PostResult result = post(Optional.empty());

    assertEquals(1, result.posted().size());
    assertEquals(
        "the server answered 422: processing, Device is not wanted here",
        result.failures().get(0).reason());
    assertEquals(2, server.requests(), "a refusal is not sent again");
  }

  @Test
  void stopsWhereNothingIsAllowed() throws Exception {
    Eye right = new Eye("TSEU-1", "Tern Sound Eye Unit", Laterality.RIGHT);
    write(SampleVisits.visit(), SampleVisits.of(right, "2.25.11"));
    server.answerFirst(SmallFhirServer.Scripted.of(401));

    PostResult result = post(Optional.empty());

    assertEquals(1, server.requests());
    assertTrue(result.failures().get(0).reason().contains("--token-file"));
    assertEquals("not tried after the failure before", result.failures().get(1).reason());
    assertEquals(List.of("Bearer sandpiper"), server.authorizations());
  }

  @Test
  void answersOfOtherServersDoNotCount() throws Exception {
    write(SampleVisits.visit());
    server.answerFirst(new SmallFhirServer.Scripted(200, "<html>welcome</html>", Map.of()));
    String page = post(Optional.empty()).failures().get(0).reason();
    server.answerFirst(
        new SmallFhirServer.Scripted(302, "", Map.of("Location", "https://else.example.org/")));
    String away = post(Optional.empty()).failures().get(0).reason();

    assertTrue(page.contains("is this the base of a FHIR server?"), page);
    assertTrue(away.contains("https://else.example.org/"), away);
  }

  @Test
  void nobodyThere() throws Exception {
    write(SampleVisits.visit());
    try (Socket silent = new Socket()) {
      // Held but not listened on: nobody else can come to listen there.
      silent.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0));
      URI base = URI.create("http://127.0.0.1:" + silent.getLocalPort());
      PostResult result = poster(base, Optional.empty()).post(run);

      assertEquals("nobody answers there", result.failures().get(0).reason());
      assertEquals(3, pauses.size());
    }
  }

  @Test
  void aConnectionCutWhileItIsSecuredIsMadeAnew() throws Exception {
    write(SampleVisits.visit());
    try (HangingUp cut = new HangingUp()) {
      URI base = URI.create("https://localhost:" + cut.port() + "/r4");
      PostResult result = poster(base, Optional.empty()).post(run);

      assertEquals(3, pauses.size(), result.toString());
      assertTrue(cut.calls() >= 4, cut.calls() + " calls");
      String reason = result.failures().get(0).reason();
      assertTrue(reason.startsWith("the connection failed"), reason);
    }
  }

  @Test
  void whoRefusesAHandshakeIsNotCalledAgain() throws Exception {
    write(SampleVisits.visit());
    try (HangingUp unwilling = new HangingUp(HangingUp.REFUSAL)) {
      URI base = URI.create("https://localhost:" + unwilling.port() + "/r4");
      PostResult result = poster(base, Optional.empty()).post(run);

      assertEquals(0, pauses.size(), result.toString());
      String reason = result.failures().get(0).reason();
      assertTrue(reason.startsWith("no secure connection"), reason);
    }
  }

  @Test
  void onlyWhatTheRunWroteIsSent() throws Exception {
    List<Path> files = write(SampleVisits.visit());
    Files.copy(files.get(0), run.resolve("fhir/left-from-before.json"));
    post(Optional.empty());
    assertEquals(1, server.requests());

    Files.writeString(files.get(0), " ", StandardOpenOption.APPEND);
    PostResult changed = post(Optional.empty());
    Files.delete(files.get(0));
    PostResult gone = post(Optional.empty());

    assertTrue(changed.failures().get(0).reason().contains("changed since the run"));
    assertTrue(gone.failures().get(0).reason().contains("gone since the run"));
    assertEquals(1, server.requests());
  }

  @Test
  void addressesThatAreNone() {
    for (String wrong :
        List.of(
            "fhir.example.org",
            "ftp://fhir.example.org/",
            "http://fhir.example.org/r4",
            "http://127.0.0.1.example.org/r4",
            "https://user@fhir.example.org/r4",
            "https://fhir.example.org/r4?x=1",
            "https:///r4",
            "not an address")) {
      assertThrows(IllegalArgumentException.class, () -> FhirServer.base(wrong, false), wrong);
    }
    assertEquals("[::1]", FhirServer.base("http://[::1]:8080/r4", false).getHost());
    assertEquals("localhost", FhirServer.base("http://localhost/r4", false).getHost());
    assertEquals("LOCALHOST", FhirServer.base("HTTP://LOCALHOST/r4", false).getHost());
    assertEquals("fhir.example.org", FhirServer.base("http://fhir.example.org/r4", true).getHost());
  }

  private long count(String type) {
    return server.kept().keySet().stream().filter(key -> key.startsWith(type + "/")).count();
  }

  private PostResult post(Optional<String> system) throws Exception {
    return poster(server.base(), system).post(run);
  }

  private BundlePoster poster(URI base, Optional<String> system) {
    FhirServer there =
        new FhirServer(base, Optional.empty(), Optional.of("sandpiper"), Duration.ofMinutes(3), 3);
    return new BundlePoster(there, system.map(URI::create), pauses::add, said::add);
  }

  private List<Path> write(FhirVisit... visits) throws IOException {
    return SampleRun.write(run, SOFTWARE, visits);
  }
}

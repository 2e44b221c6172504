package org.isopach.job.post;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * Posts the FHIR files of a run, one transaction after another. Posting again changes nothing on
 * the server that the run has not changed.
 */
public final class BundlePoster {
  private final TransactionSender sender;
  private final Optional<URI> patientSystem;

  /**
   * Makes a poster.
   *
   * @param patientSystem the server's own system of patient identifiers, in place of the one made
   *     of the issuer; empty to keep that
   * @param log is told what goes on
   */
  public BundlePoster(FhirServer server, Optional<URI> patientSystem, Consumer<String> log) {
    this(server, patientSystem, time -> Thread.sleep(time.toMillis()), log);
  }

  BundlePoster(
      FhirServer server,
      Optional<URI> patientSystem,
      TransactionSender.Pauses pauses,
      Consumer<String> log) {
    this.sender = new TransactionSender(server, pauses, log);
    this.patientSystem = patientSystem;
  }

  /**
   * Posts every file. After a connection is lost for good, or the server lets us do nothing, the
   * rest is not tried.
   *
   * @param run the folder of a run
   * @throws IOException when the folder has no record of a run
   * @throws IllegalArgumentException when one system is given for the patients of several issuers
   */
  public PostResult post(Path run) throws IOException, InterruptedException {
    RunBundles bundles = RunBundles.of(run);
    if (patientSystem.isPresent()) {
      checkOneIssuer(bundles);
    }
    Gathered gathered = new Gathered();
    for (String name : bundles.names()) {
      gathered.take(name, bundles);
    }
    return new PostResult(gathered.posted, gathered.failures);
  }

  private static void checkOneIssuer(RunBundles bundles) {
    long systems =
        bundles.names().stream()
            .flatMap(name -> patientSystem(bundles, name).stream())
            .distinct()
            .count();
    if (systems > 1) {
      throw new IllegalArgumentException(
          "--patient-system is one system, but the run has patients of "
              + systems
              + " issuers; run and post each issuer's scans apart");
    }
  }

  /** A file that cannot be read is named when its turn comes. */
  private static Optional<String> patientSystem(RunBundles bundles, String name) {
    try {
      return bundles.read(name).patientSystem();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** What came of the files so far. */
  private final class Gathered {
    private final List<PostResult.Posted> posted = new ArrayList<>();
    private final List<PostResult.Failure> failures = new ArrayList<>();
    private boolean hopeless;

    void take(String name, RunBundles bundles) throws InterruptedException {
      if (hopeless) {
        fail(name, "not tried after the failure before");
        return;
      }
      Transaction transaction;
      byte[] bytes;
      try {
        transaction = bundles.read(name);
        patientSystem.map(URI::toString).ifPresent(transaction::under);
        bytes = transaction.bytes();
      } catch (IOException e) {
        fail(name, e.getMessage());
        return;
      }
      Optional<String> obstacle = transaction.obstacle();
      if (obstacle.isPresent()) {
        fail(name, obstacle.get());
      } else {
        send(name, bytes, transaction.entries());
      }
    }

    private void send(String name, byte[] bytes, int entries) throws InterruptedException {
      try {
        Reply reply = sender.send(bytes);
        hopeless = Answer.denied(reply);
        Optional<String> refusal = Answer.refusal(reply, entries);
        if (refusal.isPresent()) {
          fail(name, refusal.get());
        } else {
          posted.add(new PostResult.Posted(name, entries, Answer.created(reply)));
        }
      } catch (IOException e) {
        hopeless = true;
        fail(name, TransactionSender.words(e));
      }
    }

    private void fail(String name, String reason) {
      failures.add(new PostResult.Failure(name, reason));
    }
  }
}

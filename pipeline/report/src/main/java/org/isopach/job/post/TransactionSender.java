package org.isopach.job.post;

import java.io.IOException;
import java.net.ConnectException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import javax.net.ssl.SSLHandshakeException;
import org.isopach.dicom.network.BackOff;
import org.isopach.dicom.network.BrokenHandshake;

/**
 * Posts a transaction, again and again where the connection is lost or the server is busy. Sending
 * twice what arrived once does no harm: the transaction says so itself.
 */
final class TransactionSender {
  private static final String FHIR_JSON = "application/fhir+json";
  private static final long LONGEST_ANSWER = 64L << 20;
  private static final long LONGEST_PAUSE_SECONDS = BackOff.CONNECTIONS.longest().toSeconds();

  private final FhirServer server;
  private final HttpClient client;
  private final Pauses pauses;
  private final Consumer<String> log;

  /** Waits; tests do not. */
  @FunctionalInterface
  interface Pauses {
    void pause(Duration time) throws InterruptedException;
  }

  TransactionSender(FhirServer server, Pauses pauses, Consumer<String> log) {
    this.server = server;
    this.pauses = pauses;
    this.log = log;
    HttpClient.Builder builder =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .followRedirects(HttpClient.Redirect.NEVER)
            .connectTimeout(server.timeout());
    server.tls().ifPresent(builder::sslContext);
    this.client = builder.build();
  }

  /**
   * Returns the last answer.
   *
   * @throws IOException when there is none
   */
  Reply send(byte[] body) throws IOException, InterruptedException {
    for (int tried = 0; ; tried++) {
      boolean last = tried >= server.retries();
      long seconds = BackOff.CONNECTIONS.after(tried + 1).toSeconds();
      try {
        Reply reply = once(body);
        if (!reply.passing() || last) {
          return reply;
        }
        seconds = Math.min(LONGEST_PAUSE_SECONDS, reply.retryAfterSeconds().orElse(seconds));
        log.accept("the server answered " + reply.status() + "; again in " + seconds + " s");
      } catch (IOException e) {
        if (last || (e instanceof SSLHandshakeException && !BrokenHandshake.is(e))) {
          throw e;
        }
        log.accept(words(e) + "; again in " + seconds + " s");
      }
      pauses.pause(Duration.ofSeconds(seconds));
    }
  }

  /** Returns what went wrong with a connection, in words. */
  static String words(IOException e) {
    if (e instanceof SSLHandshakeException && !BrokenHandshake.is(e)) {
      return "no secure connection: " + e.getMessage();
    }
    String what = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    return e instanceof ConnectException
        ? "nobody answers there"
        : "the connection failed: " + what;
  }

  private Reply once(byte[] body) throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(server.base())
            .timeout(server.timeout())
            .header("Content-Type", FHIR_JSON)
            .header("Accept", FHIR_JSON)
            .header("Prefer", "return=minimal")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body));
    server.token().ifPresent(token -> request.header("Authorization", "Bearer " + token));
    CompletableFuture<HttpResponse<String>> answer =
        client.sendAsync(request.build(), info -> new BoundedBody(LONGEST_ANSWER));
    try {
      return reply(answer.get(server.timeout().toMillis(), TimeUnit.MILLISECONDS));
    } catch (TimeoutException e) {
      answer.cancel(true);
      throw new IOException("no whole answer within " + server.timeout().toSeconds() + " s", e);
    } catch (ExecutionException e) {
      if (e.getCause() instanceof IOException lost) {
        throw lost;
      }
      throw new IOException("the request could not be sent", e.getCause());
    }
  }

  private static Reply reply(HttpResponse<String> response) {
    Optional<Long> after =
        response
            .headers()
            .firstValue("Retry-After")
            .filter(text -> text.matches("\\d{1,6}"))
            .map(Long::valueOf);
    return new Reply(
        response.statusCode(), response.body(), response.headers().firstValue("Location"), after);
  }
}

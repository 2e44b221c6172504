package org.isopach.dicom.web;

import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpConnectTimeoutException;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Flow;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.LongSupplier;
import javax.net.ssl.SSLHandshakeException;
import org.isopach.dicom.network.BackOff;
import org.isopach.dicom.network.BrokenHandshake;

/** Asks one server: no redirection is followed, and a silent server is not waited for. */
final class WebExchange {
  private final WebSettings settings;
  private final HttpClient client;

  WebExchange(WebSettings settings) {
    this.settings = settings;
    HttpClient.Builder builder =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .followRedirects(HttpClient.Redirect.NEVER)
            .connectTimeout(settings.patience());
    settings.tls().ifPresent(builder::sslContext);
    this.client = builder.build();
  }

  /** A try that may be made again. */
  @FunctionalInterface
  interface Attempt<T> {
    T make() throws IOException;
  }

  /**
   * Asks for a resource.
   *
   * @return the answer once its head is there
   * @throws IOException when nothing comes, or not what was asked for
   */
  WebAnswer get(URI resource, String accept) throws IOException {
    return checked(send(request(resource, accept).GET().build(), () -> 0));
  }

  /**
   * Sends a body.
   *
   * @param sent counts the bytes that went out; as long as it grows the answer is waited for
   * @return the answer whatever its status
   */
  WebAnswer post(
      URI resource, String contentType, BodyPublisher body, LongSupplier sent, String accept)
      throws IOException {
    return send(
        request(resource, accept).header("Content-Type", contentType).POST(body).build(), sent);
  }

  /**
   * Asks until somebody answers, whatever the answer.
   *
   * @throws IOException when nobody does
   */
  void reach(URI resource, String accept, int retries) throws IOException {
    patiently(
        () -> {
          try (WebAnswer answer = send(request(resource, accept).GET().build(), () -> 0)) {
            return answer.status();
          }
        },
        retries);
  }

  private static WebAnswer checked(WebAnswer answer) throws IOException {
    try {
      return answer.good();
    } catch (WebException e) {
      answer.close();
      throw e;
    }
  }

  /** Makes a try as often as the settings say, with pauses between, while the failure may pass. */
  <T> T patiently(Attempt<T> attempt) throws IOException {
    return patiently(attempt, settings.retries());
  }

  /** As often as said here. */
  <T> T patiently(Attempt<T> attempt, int retries) throws IOException {
    for (int tried = 0; ; tried++) {
      BackOff.CONNECTIONS.pause(tried);
      try {
        return attempt.make();
      } catch (IOException e) {
        if (tried == retries || !WebException.mayPass(e)) {
          throw e;
        }
      }
    }
  }

  private HttpRequest.Builder request(URI resource, String accept) {
    HttpRequest.Builder builder = HttpRequest.newBuilder(resource).header("Accept", accept);
    settings.credentials().ifPresent(known -> builder.header("Authorization", known.header()));
    return builder;
  }

  private WebAnswer send(HttpRequest request, LongSupplier sent) throws IOException {
    CompletableFuture<HttpResponse<Flow.Publisher<List<ByteBuffer>>>> answer =
        client.sendAsync(request, BodyHandlers.ofPublisher());
    HttpResponse<Flow.Publisher<List<ByteBuffer>>> response = await(answer, sent);
    PatientStream body = new PatientStream(settings.patience());
    response.body().subscribe(body);
    return new WebAnswer(response.statusCode(), response.headers(), body);
  }

  private <T> T await(CompletableFuture<T> answer, LongSupplier sent) throws IOException {
    long before = -1;
    while (true) {
      try {
        return answer.get(settings.patience().toMillis(), TimeUnit.MILLISECONDS);
      } catch (TimeoutException e) {
        if (sent.getAsLong() == before || sent.getAsLong() == 0) {
          answer.cancel(true);
          throw WebException.lost(
              "the server was silent for " + settings.patience().toSeconds() + " s");
        }
        before = sent.getAsLong();
      } catch (ExecutionException e) {
        throw failure(e.getCause());
      } catch (InterruptedException e) {
        answer.cancel(true);
        Thread.currentThread().interrupt();
        throw WebException.last("interrupted", e);
      }
    }
  }

  private static IOException failure(Throwable cause) {
    if (cause instanceof SSLHandshakeException && !BrokenHandshake.is(cause)) {
      return WebException.last("no secure connection: " + cause.getMessage(), cause);
    }
    String why = cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    boolean reached =
        !(cause instanceof ConnectException
            || cause instanceof HttpConnectTimeoutException
            || cause instanceof SSLHandshakeException);
    return reached
        ? WebException.lost("no answer: " + why, cause)
        : WebException.passing("no answer: " + why, cause);
  }
}

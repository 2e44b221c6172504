package org.isopach.dicom.web;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpRequest.BodyPublisher;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.dicom.network.NetworkEvents;
import org.isopach.dicom.network.OutgoingFile;
import org.isopach.dicom.network.SendJournal;
import org.isopach.dicom.network.SendRecord;
import org.isopach.dicom.network.SendResult;
import org.isopach.dicom.network.UnreadableFile;

/**
 * Stores files on a DICOMweb server (STOW-RS), in requests of at most 100 objects and about 64 MiB.
 *
 * <p>An object counts as acknowledged when the answer names it among those stored. What failed for
 * the moment is tried again after 1, 2, 4 … seconds.
 */
public final class WebSender {
  private static final String JSON = "application/dicom+json";
  private static final int MOST_FILES = 100;
  private static final int MOST_GIVEN_UP_IN_A_ROW = 10;

  /** Enough to find one object of {@link #MOST_FILES} by halves, and four more beside it. */
  private static final int MOST_LOST_IN_A_ROW = 12;

  private static final long MOST_BYTES = 64L << 20;

  private final WebSettings settings;
  private final WebExchange exchange;
  private final SendRecord record;
  private Optional<String> unreachable = Optional.empty();
  private int givenUpInARow;
  private int lostInARow;
  private boolean faulty;

  private WebSender(WebSettings settings, NetworkEvents events, Optional<SendJournal> journal) {
    this.settings = settings;
    this.exchange = new WebExchange(settings);
    this.record =
        new SendRecord(settings.service().toString(), journal, events, acknowledged -> {});
  }

  /**
   * Asks whether somebody is there, with a query for one study.
   *
   * @throws IOException when not, with the reason
   */
  public static void probe(WebSettings settings) throws IOException {
    new WebQuery(settings, new WebExchange(settings), (kind, line) -> {}).probe();
  }

  /**
   * Sends files.
   *
   * @param journal remembers over runs what was acknowledged; made if need be
   * @throws IOException when the journal cannot be written
   */
  public static SendResult send(
      WebSettings settings, List<Path> files, Optional<Path> journal, NetworkEvents events)
      throws IOException {
    if (journal.isEmpty()) {
      return new WebSender(settings, events, Optional.empty()).run(files);
    }
    try (SendJournal open = SendJournal.open(journal.get())) {
      return new WebSender(settings, events, Optional.of(open)).run(files);
    }
  }

  private SendResult run(List<Path> files) throws IOException {
    List<OutgoingFile> batch = new ArrayList<>();
    long bytes = 0;
    for (Path path : files) {
      Optional<OutgoingFile> looked = record.look(path);
      if (looked.isEmpty()) {
        continue;
      }
      OutgoingFile file = looked.get();
      long more = file.path().toFile().length();
      if (batch.size() == MOST_FILES || bytes + more > MOST_BYTES || named(batch, file)) {
        deliver(batch);
        batch.clear();
        bytes = 0;
      }
      batch.add(file);
      bytes += more;
    }
    deliver(batch);
    return record.result();
  }

  /** The answer tells objects apart by their UIDs only. */
  private static boolean named(List<OutgoingFile> batch, OutgoingFile file) {
    String uid = file.identity().sopUid();
    return batch.stream().anyMatch(other -> other.identity().sopUid().equals(uid));
  }

  private void deliver(List<OutgoingFile> batch) throws IOException {
    if (batch.isEmpty()) {
      return;
    }
    if (unreachable.isPresent()) {
      batch.forEach(file -> record.fail(file.path(), unreachable.get()));
      return;
    }
    StoreResponse response;
    try {
      response = exchange.patiently(() -> attempt(batch), retries());
    } catch (IOException e) {
      refused(batch, e);
      return;
    }
    faulty = false;
    givenUpInARow = 0;
    lostInARow = 0;
    for (OutgoingFile file : batch) {
      settle(file, response.outcome(file.identity().sopUid()));
    }
  }

  private int retries() {
    return faulty ? Math.min(1, settings.retries()) : settings.retries();
  }

  /**
   * One bad object must not fail the others: what is refused as a whole, or makes the server fail
   * or hang up, is sent in halves. A server that fails on one object after another is left alone,
   * and so is one that loses one request after another.
   */
  private void refused(List<OutgoingFile> batch, IOException why) throws IOException {
    WebException.Kind kind = WebException.of(why);
    boolean lost = kind == WebException.Kind.LOST;
    boolean gone = lost && (++lostInARow == MOST_LOST_IN_A_ROW || !answers());
    faulty = lost || kind == WebException.Kind.FAULT;
    if (gone || kind == WebException.Kind.PASSING || kind == WebException.Kind.FINAL) {
      stop(batch, why);
    } else if (batch.size() > 1) {
      int half = batch.size() / 2;
      deliver(batch.subList(0, half));
      deliver(batch.subList(half, batch.size()));
    } else if (faulty && ++givenUpInARow == MOST_GIVEN_UP_IN_A_ROW) {
      stop(batch, why);
    } else {
      record.fail(batch.get(0).path(), why.getMessage());
      givenUpInARow = faulty ? givenUpInARow : 0;
    }
  }

  /** Asks for something small: a connection may be lost for what was sent, or for good. */
  private boolean answers() {
    try {
      exchange.reach(
          settings.service().resource("/studies", Map.of("limit", "1")), JSON, retries());
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  private void stop(List<OutgoingFile> batch, IOException why) {
    unreachable = Optional.of(why.getMessage());
    batch.forEach(file -> record.fail(file.path(), why.getMessage()));
  }

  private StoreResponse attempt(List<OutgoingFile> batch) throws IOException {
    StoreBatch request = new StoreBatch(batch);
    try {
      return attempt(request);
    } catch (IOException e) {
      throw request.unreadable().isPresent() ? unreadable(request.unreadable().get()) : e;
    }
  }

  private StoreResponse attempt(StoreBatch request) throws IOException {
    URI resource = settings.service().resource("/studies", Map.of());
    BodyPublisher body = body(request);
    try (WebAnswer answer =
        exchange.post(resource, request.contentType(), body, request::sent, JSON)) {
      int status = answer.status();
      if (status == WebAnswer.OK || status == WebAnswer.ACCEPTED) {
        answer.good();
        return StoreResponse.of(answer);
      }
      if (status == 404 || status == 405 || status == 501) {
        throw WebException.last("the server stores nothing at this URL (" + status + ")");
      }
      boolean ours = status == 400 || status == 409;
      StoreResponse response = ours ? StoreResponse.of(answer) : null;
      if (response == null || response.silent()) {
        answer.good();
        throw WebException.lasting("the server names no object as stored (" + status + ")");
      }
      return response;
    }
  }

  /** A file that went away meanwhile is no fault of the server's. */
  private static BodyPublisher body(StoreBatch request) throws WebException {
    try {
      return request.body();
    } catch (IOException e) {
      throw WebException.lasting("cannot be read: " + e.getMessage(), e);
    }
  }

  private static WebException unreadable(UnreadableFile fault) {
    return WebException.lasting(fault.getMessage(), fault);
  }

  private void settle(OutgoingFile file, Optional<StoreResponse.Outcome> outcome)
      throws IOException {
    if (outcome.isEmpty()) {
      record.fail(file.path(), "the answer does not name it");
    } else if (!outcome.get().kept()) {
      record.fail(file.path(), ("refused with reason " + outcome.get().reason()).strip());
    } else {
      record.took(file, outcome.get().reason());
    }
  }
}

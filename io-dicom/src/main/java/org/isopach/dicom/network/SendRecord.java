package org.isopach.dicom.network;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.read.ObjectDefect;

/** What became of the files of one run of sending, whichever way they are sent. */
public final class SendRecord {
  private final String target;
  private final Optional<SendJournal> journal;
  private final NetworkEvents events;
  private final Consumer<SentObject> acknowledged;
  private final List<SendResult.Failure> failures = new ArrayList<>();
  private int sent;
  private int sentBefore;
  private int notDicom;

  /**
   * Starts a record.
   *
   * @param target who the files go to, as the journal names it
   * @param journal knows what was acknowledged in earlier runs; empty when nobody keeps one
   * @param acknowledged is told what was acknowledged, now or before
   */
  public SendRecord(
      String target,
      Optional<SendJournal> journal,
      NetworkEvents events,
      Consumer<SentObject> acknowledged) {
    this.target = target;
    this.journal = journal;
    this.events = events;
    this.acknowledged = acknowledged;
  }

  /** Returns a file when it is to be sent; else it is counted, and named where it fails. */
  public Optional<OutgoingFile> look(Path path) {
    try {
      OutgoingFile file = OutgoingFile.of(path, journal.isPresent());
      if (journal.isPresent() && journal.get().acknowledged(target, file)) {
        sentBefore++;
        acknowledged.accept(file.sent());
        return Optional.empty();
      }
      return Optional.of(file);
    } catch (ObjectDefect e) {
      if (e.kind() == FindingKind.NOT_DICOM) {
        notDicom++;
      } else {
        fail(path, e.detail());
      }
    } catch (IOException e) {
      fail(path, "cannot be read: " + e.getMessage());
    }
    return Optional.empty();
  }

  /** Notes that a file was not acknowledged. */
  public void fail(Path path, String reason) {
    failures.add(new SendResult.Failure(path.toString(), reason));
    events.event(NetworkEvents.Kind.REFUSED, path + ": " + reason);
  }

  /**
   * Notes that a file was acknowledged.
   *
   * @param warning what the peer says besides; empty for nothing
   * @throws IOException when the journal cannot be written
   */
  public void took(OutgoingFile file, String warning) throws IOException {
    sent++;
    acknowledged.accept(file.sent());
    if (journal.isPresent()) {
      journal.get().acknowledge(target, file);
    }
    String line = target + ": took " + file.path();
    if (warning.isEmpty()) {
      events.event(NetworkEvents.Kind.DONE, line);
    } else {
      events.event(NetworkEvents.Kind.REFUSED, line + " with warning " + warning);
    }
  }

  /** Returns what became of all files so far. */
  public SendResult result() {
    return new SendResult(sent, sentBefore, notDicom, failures);
  }
}

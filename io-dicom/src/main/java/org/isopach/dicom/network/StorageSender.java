package org.isopach.dicom.network;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * Sends files by C-STORE, one after another, in batches of which every kind of object and encoding
 * gets a presentation context. Files go out encoded as they are.
 *
 * <p>A connection that is lost is made anew after 1, 2, 4 … seconds; what was acknowledged is not
 * sent again. A file at which the peer ends every association is given up, and the others go on.
 */
public final class StorageSender {
  private static final int BATCH = 500;
  private static final int MOST_MESSAGE_ID = 0xffff;
  private static final int WARNING = 0xB000;
  private static final int MOST_GIVEN_UP_IN_A_ROW = 10;

  private final CallerSettings settings;
  private final NetworkEvents events;
  private final SendRecord record;
  private int givenUpInARow;

  private StorageSender(
      CallerSettings settings,
      NetworkEvents events,
      Optional<SendJournal> journal,
      Consumer<SentObject> acknowledged) {
    this.settings = settings;
    this.events = events;
    this.record = new SendRecord(settings.to().toString(), journal, events, acknowledged);
  }

  /**
   * Asks whether somebody is there (C-ECHO).
   *
   * @throws IOException when not, with the reason
   */
  public static void echo(CallerSettings settings) throws IOException {
    Caller.echo(settings);
  }

  /**
   * Sends files.
   *
   * @param journal remembers over runs what was acknowledged; made if need be
   * @throws IOException when the journal cannot be written
   */
  public static SendResult send(
      CallerSettings settings, List<Path> files, Optional<Path> journal, NetworkEvents events)
      throws IOException {
    return send(settings, files, journal, events, object -> {});
  }

  /** Sends files, and hands on what was acknowledged, now or before. */
  public static SendResult send(
      CallerSettings settings,
      List<Path> files,
      Optional<Path> journal,
      NetworkEvents events,
      Consumer<SentObject> acknowledged)
      throws IOException {
    if (journal.isEmpty()) {
      return new StorageSender(settings, events, Optional.empty(), acknowledged).run(files);
    }
    try (SendJournal open = SendJournal.open(journal.get())) {
      return new StorageSender(settings, events, Optional.of(open), acknowledged).run(files);
    }
  }

  private SendResult run(List<Path> files) throws IOException {
    List<OutgoingFile> batch = new ArrayList<>();
    boolean reachable = true;
    for (Path path : files) {
      record.look(path).ifPresent(batch::add);
      if (batch.size() == BATCH || SendBatch.full(batch)) {
        reachable = deliver(batch, reachable);
        batch.clear();
      }
    }
    deliver(batch, reachable);
    return record.result();
  }

  /**
   * How tries ended.
   *
   * @param why the reason of the last
   * @param atFile whether the last had got an association, so that the file may be the reason
   * @param lasting whether another try is of no use
   */
  private record End(String why, boolean atFile, boolean lasting) {}

  /** Sends a batch; returns whether the peer could be reached. */
  private boolean deliver(List<OutgoingFile> batch, boolean reachable) throws IOException {
    List<OutgoingFile> left = new ArrayList<>(batch);
    End end = new End("the peer could not be reached", reachable, false);
    while (end.atFile() && givenUpInARow < MOST_GIVEN_UP_IN_A_ROW && !left.isEmpty()) {
      end = untilNothingMoves(left);
      if (end.atFile() && !left.isEmpty()) {
        record.fail(left.remove(0).path(), end.why());
        givenUpInARow++;
      }
    }
    for (OutgoingFile file : left) {
      record.fail(file.path(), end.why());
    }
    return left.isEmpty();
  }

  /** Tries until all is sent, or as often as the settings say without getting any further. */
  private End untilNothingMoves(List<OutgoingFile> left) throws IOException {
    End end = new End("", true, false);
    int attempts = (givenUpInARow == 0 ? settings.retries() : Math.min(1, settings.retries())) + 1;
    for (int attempt = 0; attempt < attempts && !left.isEmpty(); attempt++) {
      BackOff.CONNECTIONS.pause(attempt);
      int before = left.size();
      end = attempt(left);
      attempts = end.lasting() ? 0 : attempts;
      attempt = left.size() < before ? -1 : attempt;
    }
    return end;
  }

  private String told(String why) {
    events.event(NetworkEvents.Kind.REFUSED, settings.to() + ": " + why);
    return why;
  }

  /** Sends what is left over one association, as far as it goes. */
  private End attempt(List<OutgoingFile> left) throws IOException {
    boolean open = false;
    try (Association association = Caller.call(settings, SendBatch.proposals(left), List.of())) {
      open = true;
      int messageId = 0;
      while (!left.isEmpty()) {
        messageId = messageId % MOST_MESSAGE_ID + 1;
        one(association, left.get(0), messageId);
        left.remove(0);
      }
      association.release();
      return new End("", true, false);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    } catch (UnreadableFile e) {
      record.fail(left.remove(0).path(), e.getMessage());
      return new End(e.getMessage(), true, false);
    } catch (AssociationException e) {
      return new End(told(e.getMessage()), open, e.isLasting());
    } catch (IOException e) {
      return new End(told("the connection was lost: " + e.getMessage()), open, false);
    }
  }

  private void one(Association association, OutgoingFile file, int messageId) throws IOException {
    String sopClass = file.identity().sopClassUid();
    String syntax = file.identity().transferSyntaxUid();
    Optional<PresentationContext> context = association.context(sopClass, syntax);
    if (context.isEmpty()) {
      record.fail(
          file.path(), "the peer does not take " + sopClass + " in transfer syntax " + syntax);
      return;
    }
    Command request =
        Command.of(Command.C_STORE_RQ)
            .withUid(Command.AFFECTED_SOP_CLASS, sopClass)
            .with(Command.MESSAGE_ID, messageId)
            .with(Command.PRIORITY, 0)
            .withUid(Command.AFFECTED_SOP_INSTANCE, file.identity().sopUid());
    try (InputStream data = file.dataSet(fault -> {})) {
      association.send(context.get(), request, data);
    }
    Responses.Answer answer = Responses.await(association, Command.C_STORE_RQ, messageId);
    givenUpInARow = 0;
    if (answer.status() == StoreStatus.SUCCESS || answer.status() >>> 12 == WARNING >>> 12) {
      took(file, answer.status() == StoreStatus.SUCCESS ? "" : told(answer));
    } else {
      record.fail(file.path(), "refused with status " + told(answer));
    }
  }

  private static String told(Responses.Answer answer) {
    return String.format("%04X %s", answer.status(), answer.comment()).strip();
  }

  /** A journal that cannot be written is no fault of the connection: it ends the run. */
  private void took(OutgoingFile file, String warning) {
    try {
      record.took(file, warning);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

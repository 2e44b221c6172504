package org.isopach.dicom.network;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.SocketTimeoutException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.dicom.data.TransferSyntax;

/** Asks an archive for studies and fetches them (C-FIND, C-GET, C-MOVE; PS3.4, annex C). */
public final class ArchiveClient {
  private static final String FIND = "1.2.840.10008.5.1.4.1.2.2.1";
  private static final String MOVE = "1.2.840.10008.5.1.4.1.2.2.2";
  private static final String GET = "1.2.840.10008.5.1.4.1.2.2.3";
  private static final int PENDING = 0xFF;
  private static final int MESSAGE = 1;
  private static final int LARGEST_ANSWER = 1 << 20;
  private static final int MOST_ANSWERS = 10_000;

  /**
   * What C-GET asks for: an archive sends nothing else over that association. Tomography,
   * photographs of 8 and 16 bits, and what the program itself writes: thickness and parametric
   * maps, height maps, segmentations, grid reports, en face images, registrations, documents.
   */
  private static final List<String> WANTED =
      List.of(
          "1.2.840.10008.5.1.4.1.1.77.1.5.4",
          "1.2.840.10008.5.1.4.1.1.77.1.5.1",
          "1.2.840.10008.5.1.4.1.1.77.1.5.2",
          "1.2.840.10008.5.1.4.1.1.81.1",
          "1.2.840.10008.5.1.4.1.1.30",
          "1.2.840.10008.5.1.4.1.1.66.8",
          "1.2.840.10008.5.1.4.1.1.66.4",
          "1.2.840.10008.5.1.4.1.1.79.1",
          "1.2.840.10008.5.1.4.1.1.77.1.5.7",
          "1.2.840.10008.5.1.4.1.1.66.1",
          "1.2.840.10008.5.1.4.1.1.104.1");

  private final CallerSettings settings;
  private final NetworkEvents events;

  /** Makes a client of an archive. */
  public ArchiveClient(CallerSettings settings, NetworkEvents events) {
    this.settings = settings;
    this.events = events;
  }

  /**
   * Asks which studies there are. What an archive answers with besides is left out and told.
   *
   * @throws IOException when the archive cannot be reached, refuses, or answers nonsense
   */
  public List<FoundStudy> find(StudyQuery query) throws IOException {
    try (Association association = Caller.call(settings, List.of(context(1, FIND)), List.of())) {
      PresentationContext context = agreed(association, FIND);
      association.send(context, request(Command.C_FIND_RQ, FIND), keys(query.keys()));
      List<FoundStudy> found = new ArrayList<>();
      Responses.Answer answer = Responses.await(association, Command.C_FIND_RQ, MESSAGE);
      while (answer.status() >>> Byte.SIZE == PENDING) {
        if (found.size() == MOST_ANSWERS) {
          association.abort(AssociationException.UNSPECIFIED);
          throw AssociationException.peer("more than " + MOST_ANSWERS + " studies; ask for fewer");
        }
        study(query, data(association, answer)).ifPresent(found::add);
        answer = Responses.await(association, Command.C_FIND_RQ, MESSAGE);
      }
      if (answer.status() != StoreStatus.SUCCESS) {
        throw AssociationException.peer(
            String.format("the query was refused: %04X %s", answer.status(), answer.comment()));
      }
      association.release();
      return found;
    } catch (SocketTimeoutException e) {
      throw silent();
    }
  }

  private AssociationException silent() {
    return AssociationException.peer("no answer within " + settings.patience().toSeconds() + " s");
  }

  /** An archive may pass over a key it does not know, and answer with everybody's studies. */
  private Optional<FoundStudy> study(StudyQuery query, Identifier answer) {
    String uid = answer.text(Identifier.STUDY_UID);
    if (!Uids.sound(uid)) {
      events.event(NetworkEvents.Kind.REFUSED, "a study without a sound UID was left out");
      return Optional.empty();
    }
    String patient = answer.text(Identifier.PATIENT_ID).strip();
    if (!query.fits(patient, uid, answer.text(Identifier.STUDY_DATE).strip())) {
      events.event(
          NetworkEvents.Kind.REFUSED, "study " + uid + " was not asked for and is left out");
      return Optional.empty();
    }
    return Optional.of(
        new FoundStudy(
            uid,
            Printable.of(answer.text(Identifier.STUDY_DATE)),
            Printable.of(answer.text(Identifier.MODALITIES)),
            Printable.of(answer.text(Identifier.INSTANCES))));
  }

  private static Identifier data(Association association, Responses.Answer answer)
      throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    if (answer.message().command().hasDataSet()) {
      association.receiveData(
          answer.message().context(),
          piece -> {
            byte[] copy = new byte[piece.remaining()];
            piece.get(copy);
            bytes.writeBytes(copy);
            if (bytes.size() > LARGEST_ANSWER) {
              throw AssociationException.broken(
                  AssociationException.UNSPECIFIED, "an answer is longer than 1 MiB");
            }
          });
    }
    return Identifier.decode(bytes.toByteArray());
  }

  /**
   * Has the archive send a study over our own association (C-GET); tomography, photographs and what
   * the program writes. Objects of other studies are refused.
   *
   * @param folder where objects go, as a listener keeps them
   */
  public RetrieveResult get(FoundStudy study, Path folder) throws IOException {
    List<PresentationContext> contexts = new ArrayList<>(List.of(context(1, GET)));
    String[] syntaxes =
        Arrays.stream(TransferSyntax.values()).map(TransferSyntax::uid).toArray(String[]::new);
    for (String sopClass : WANTED) {
      contexts.add(
          new PresentationContext(2 * contexts.size() + 1, sopClass, List.of(syntaxes), 0));
    }
    try (ReceivedObjects objects = ReceivedObjects.open(folder).onlyOf(Set.of(study.studyUid()));
        Association association = Caller.call(settings, contexts, WANTED)) {
      PresentationContext context = agreed(association, GET);
      association.send(context, request(Command.C_GET_RQ, GET), keys(of(study)));
      StoreSession store =
          new StoreSession(association, objects, ListenerSettings.OBJECT_BYTES, events);
      return follow(association, Command.C_GET_RQ, store).against(objects.taken());
    } catch (SocketTimeoutException e) {
      throw silent();
    }
  }

  /**
   * Has the archive send a study to a listener (C-MOVE).
   *
   * @param listener one that takes this study; the archive must know our title with its address
   */
  public RetrieveResult move(FoundStudy study, StorageListener listener) throws IOException {
    int before = listener.taken();
    RetrieveResult told = move(study, settings.callingAet());
    return told.against(listener.taken() - before);
  }

  RetrieveResult move(FoundStudy study, String listener) throws IOException {
    try (Association association = Caller.call(settings, List.of(context(1, MOVE)), List.of())) {
      PresentationContext context = agreed(association, MOVE);
      Command request =
          request(Command.C_MOVE_RQ, MOVE).withText(Command.MOVE_DESTINATION, listener);
      association.send(context, request, keys(of(study)));
      return follow(association, Command.C_MOVE_RQ, null);
    } catch (SocketTimeoutException e) {
      throw silent();
    }
  }

  /**
   * Returns settings for a listener that only the archive may call, by its title and address.
   *
   * @param port to listen on; 0 for any free one
   * @param folder where objects go
   * @param mustProve with TLS, whether the archive needs a certificate we trust
   * @param from where the archive calls from; empty for the addresses its host has by name
   * @throws IOException when the host's name is not known
   */
  public ListenerSettings port(int port, Path folder, boolean mustProve, List<AddressRange> from)
      throws IOException {
    return new ListenerSettings(
        port,
        settings.callingAet(),
        folder,
        Set.of(settings.to().aet()),
        from.isEmpty() ? HostAddresses.of(settings.to().host()) : from,
        ListenerSettings.ASSOCIATIONS,
        ListenerSettings.OBJECT_BYTES,
        settings.patience(),
        settings.tls(),
        mustProve);
  }

  /** Returns settings for a listener that only the archive may call, from its own addresses. */
  public ListenerSettings port(int port, Path folder, boolean mustProve) throws IOException {
    return port(port, folder, mustProve, List.of());
  }

  private static RetrieveResult follow(Association association, int request, StoreSession store)
      throws IOException {
    while (true) {
      Association.Message message =
          association
              .receive()
              .orElseThrow(() -> AssociationException.peer("the archive released too early"));
      Command command = message.command();
      if (store != null && command.number(Command.FIELD).orElse(0) == Command.C_STORE_RQ) {
        store.answer(message);
        continue;
      }
      Responses.Answer answer = Responses.checked(message, request, MESSAGE);
      if (command.hasDataSet()) {
        association.receiveData(message.context(), piece -> piece.position(piece.limit()));
      }
      if (answer.status() >>> Byte.SIZE != PENDING) {
        association.release();
        return new RetrieveResult(
            command.number(Command.COMPLETED).orElse(0),
            command.number(Command.FAILED).orElse(0),
            answer.status(),
            answer.comment());
      }
    }
  }

  private static Identifier of(FoundStudy study) {
    return new Identifier()
        .with(Identifier.LEVEL, "STUDY")
        .with(Identifier.STUDY_UID, study.studyUid());
  }

  private static ByteArrayInputStream keys(Identifier identifier) {
    return new ByteArrayInputStream(identifier.encode());
  }

  private static Command request(int field, String sopClass) {
    return Command.of(field)
        .withUid(Command.AFFECTED_SOP_CLASS, sopClass)
        .with(Command.MESSAGE_ID, MESSAGE)
        .with(Command.PRIORITY, 0);
  }

  private static PresentationContext context(int id, String sopClass) {
    return new PresentationContext(id, sopClass, List.of(TransferSyntax.IMPLICIT_LITTLE.uid()), 0);
  }

  private static PresentationContext agreed(Association association, String sopClass)
      throws AssociationException {
    return association
        .context(sopClass)
        .orElseThrow(() -> AssociationException.peer("the archive does not offer this service"));
  }
}

package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.util.Set;

/**
 * Listens for C-ECHO, C-STORE and requests for storage commitment, and keeps what it gets (see
 * {@link ReceivedObjects}).
 *
 * <p>Whatever a peer does ends its own association at most. Thread-safe.
 */
public final class StorageListener implements Closeable {
  private final AssociationServer server;
  private final ReceivedObjects objects;
  private final CommitmentReporter reporter;

  private StorageListener(
      AssociationServer server, ReceivedObjects objects, CommitmentReporter reporter) {
    this.server = server;
    this.objects = objects;
    this.reporter = reporter;
  }

  /**
   * Starts to listen; returns at once.
   *
   * @throws IOException when the port is taken or the folder cannot be used
   */
  public static StorageListener start(ListenerSettings settings, NetworkEvents events)
      throws IOException {
    return start(settings, events, ReceivedObjects.open(settings.folder()));
  }

  /**
   * Starts to listen for objects of some studies; others are refused.
   *
   * @param studyUids their Study Instance UIDs; not empty
   */
  public static StorageListener start(
      ListenerSettings settings, Set<String> studyUids, NetworkEvents events) throws IOException {
    return start(settings, events, ReceivedObjects.open(settings.folder()).onlyOf(studyUids));
  }

  /** Starts to listen, and closes the place objects go to at the end. */
  static StorageListener start(
      ListenerSettings settings, NetworkEvents events, ReceivedObjects objects) throws IOException {
    try {
      return start(
          settings,
          events,
          objects,
          new CommitmentReporter(settings, events, DueReports.open(objects.incoming())));
    } catch (IOException | RuntimeException e) {
      objects.close();
      throw e;
    }
  }

  private static StorageListener start(
      ListenerSettings settings,
      NetworkEvents events,
      ReceivedObjects objects,
      CommitmentReporter reporter)
      throws IOException {
    try {
      AssociationServer server =
          AssociationServer.start(
              settings,
              events,
              Offer.STORAGE,
              association -> {
                CommitmentProvider commitment =
                    new CommitmentProvider(association, objects, reporter, events);
                return new StoreSession(association, objects, settings.mostObjectBytes(), events)
                        .committing(commitment)
                        .run()
                    + " objects";
              });
      try {
        reporter.resume(request -> CommitmentProvider.look(request, objects));
        return new StorageListener(server, objects, reporter);
      } catch (RuntimeException e) {
        server.close();
        throw e;
      }
    } catch (IOException | RuntimeException e) {
      reporter.close();
      throw e;
    }
  }

  /** Returns the port listened on. */
  public int port() {
    return server.port();
  }

  /** Returns how many objects the folder holds. */
  public int size() {
    return objects.size();
  }

  /** Returns how many objects were taken since the start, those kept before among them. */
  public int taken() {
    return objects.taken();
  }

  /**
   * Stops: no new association is taken, open ones get ten seconds, then they are aborted. What was
   * not acknowledged leaves nothing behind; reports of commitment that are due are sent at the next
   * start.
   */
  @Override
  public void close() throws IOException {
    server.close();
    reporter.close();
    objects.close();
  }
}

package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Set;

/**
 * A folder as a listener keeps it, for objects of one study that come another way than by C-STORE.
 */
public final class ReceivedFolder implements Closeable {
  private final ReceivedObjects objects;

  private ReceivedFolder(ReceivedObjects objects) {
    this.objects = objects;
  }

  /**
   * Opens a folder, made if need be.
   *
   * @param studyUid the only study objects are taken of
   * @throws IOException when it cannot be written, or somebody else stores into it
   */
  public static ReceivedFolder open(Path folder, String studyUid) throws IOException {
    return new ReceivedFolder(ReceivedObjects.open(folder).onlyOf(Set.of(studyUid)));
  }

  /** Returns a new file to write one object to; its writer forces it to the disk. */
  public Path newPart() {
    return objects.newPart();
  }

  /**
   * Checks a whole object and gives it its place. The part is gone afterwards.
   *
   * @param sopClass the class it is said to have
   * @param sopInstance the instance it is said to be; sound
   * @throws IOException when the disk refuses
   */
  public StoreStatus keep(Path part, String sopClass, String sopInstance) throws IOException {
    return objects.keep(part, sopClass, sopInstance);
  }

  @Override
  public void close() throws IOException {
    objects.close();
  }
}

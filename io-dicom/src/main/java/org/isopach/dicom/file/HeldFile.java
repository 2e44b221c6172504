package org.isopach.dicom.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * Files that one program at a time may hold, by a lock of the operating system: it ends with the
 * program, however that ends.
 */
public final class HeldFile {
  private HeldFile() {}

  /**
   * Opens a file for writing, made if need be, and holds it until the channel is closed.
   *
   * @param taken what to say when somebody holds it, this program included
   * @throws IOException when somebody holds it, or the disk refuses
   */
  public static FileChannel open(Path file, String taken) throws IOException {
    FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    try {
      if (locked(channel)) {
        return channel;
      }
      throw new IOException(taken);
    } catch (IOException e) {
      channel.close();
      throw e;
    }
  }

  private static boolean locked(FileChannel channel) throws IOException {
    try {
      return channel.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }
}

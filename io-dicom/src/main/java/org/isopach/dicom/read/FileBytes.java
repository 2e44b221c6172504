package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** The bytes of a file. Each read opens and closes the file, so that no handle outlives it. */
public final class FileBytes implements ByteSource {
  private final Path path;
  private final long size;

  private FileBytes(Path path, long size) {
    this.path = path;
    this.size = size;
  }

  /** Returns the bytes of a file as long as it is now. */
  public static FileBytes of(Path path) throws IOException {
    return new FileBytes(path, Files.size(path));
  }

  @Override
  public long size() {
    return size;
  }

  @Override
  public void read(long position, byte[] into, int offset, int length) throws IOException {
    ByteBuffer buffer = ByteBuffer.wrap(into, offset, length);
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      long at = position;
      while (buffer.hasRemaining()) {
        int n = channel.read(buffer, at);
        if (n < 0) {
          throw new EOFException(path + " ends at byte " + at);
        }
        at += n;
      }
    }
  }
}

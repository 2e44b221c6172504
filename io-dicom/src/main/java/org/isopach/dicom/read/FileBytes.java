package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** The bytes of a file. Each read opens and closes the file unless it is held. */
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
    try (HeldBytes held = hold()) {
      held.read(position, into, offset, length);
    }
  }

  @Override
  public HeldBytes hold() throws IOException {
    return new Held(FileChannel.open(path, StandardOpenOption.READ));
  }

  private final class Held implements HeldBytes {
    private final FileChannel channel;

    Held(FileChannel channel) {
      this.channel = channel;
    }

    @Override
    public long size() {
      return size;
    }

    @Override
    public void read(long position, byte[] into, int offset, int length) throws IOException {
      ByteBuffer buffer = ByteBuffer.wrap(into, offset, length);
      long at = position;
      while (buffer.hasRemaining()) {
        int n = channel.read(buffer, at);
        if (n < 0) {
          throw new EOFException(path + " ends at byte " + at);
        }
        at += n;
      }
    }

    @Override
    public HeldBytes hold() throws IOException {
      return FileBytes.this.hold();
    }

    @Override
    public void close() throws IOException {
      channel.close();
    }
  }
}

package org.isopach.dicom.web;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** A file that is being fetched. What the disk refuses ends everything. */
final class PartFile implements Closeable {
  private static final int BUFFER = 64 * 1024;

  private final FileChannel channel;

  private PartFile(FileChannel channel) {
    this.channel = channel;
  }

  static PartFile create(Path file) throws WebException {
    try {
      return new PartFile(
          FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE));
    } catch (IOException e) {
      throw refused(e);
    }
  }

  /** Writes bytes. */
  void write(ByteBuffer bytes) throws WebException {
    try {
      while (bytes.hasRemaining()) {
        channel.write(bytes);
      }
    } catch (IOException e) {
      throw refused(e);
    }
  }

  /** Writes a stream to its end and forces all to the disk. */
  void writeAll(InputStream in) throws IOException {
    byte[] buffer = new byte[BUFFER];
    for (int got = in.read(buffer); got >= 0; got = in.read(buffer)) {
      write(ByteBuffer.wrap(buffer, 0, got));
    }
    try {
      channel.force(true);
    } catch (IOException e) {
      throw refused(e);
    }
  }

  static WebException refused(IOException why) {
    return WebException.last("cannot write to the disk: " + why.getMessage(), why);
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}

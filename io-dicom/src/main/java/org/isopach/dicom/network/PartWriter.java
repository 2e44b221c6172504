package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * Writes a data set while it is received. When the disk refuses, the rest is counted but not
 * written, so that the sender can be answered in order.
 */
class PartWriter implements Closeable {
  private final Path part;
  private FileChannel channel;
  private IOException failure;
  private long received;

  PartWriter(Path part, byte[] meta) {
    this.part = part;
    write(ByteBuffer.wrap(meta));
    received = 0;
  }

  /** Takes a piece. */
  void write(ByteBuffer piece) {
    received += piece.remaining();
    if (failure != null) {
      return;
    }
    try {
      if (channel == null) {
        channel = FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      }
      while (piece.hasRemaining()) {
        channel.write(piece);
      }
    } catch (IOException e) {
      failure = e;
    }
  }

  /** Returns how many bytes of the data set came. */
  long received() {
    return received;
  }

  /** Forces everything to the disk; returns what the disk refused, if anything. */
  Optional<IOException> finish() {
    if (failure == null) {
      try {
        channel.force(true);
      } catch (IOException e) {
        failure = e;
      }
    }
    return Optional.ofNullable(failure);
  }

  @Override
  public void close() throws IOException {
    if (channel != null) {
      channel.close();
    }
  }
}

package org.isopach.dicom.network;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.Socket;
import java.util.concurrent.Future;

/** Writes to a connection; a peer that does not take the bytes in time is cut off. */
final class WatchedOutput extends FilterOutputStream {
  private final Socket wire;
  private final Runnable cut;

  /** Makes a stream; {@code wire} has the time in which bytes must be taken. */
  WatchedOutput(OutputStream out, Socket wire, Runnable cut) {
    super(out);
    this.wire = wire;
    this.cut = cut;
  }

  @Override
  public void write(byte[] bytes, int offset, int length) throws IOException {
    Future<?> end = Watch.after(wire.getSoTimeout(), cut);
    try {
      out.write(bytes, offset, length);
    } finally {
      end.cancel(false);
    }
  }
}

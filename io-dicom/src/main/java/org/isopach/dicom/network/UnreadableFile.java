package org.isopach.dicom.network;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.function.Consumer;

/** A file of ours could not be read while it was sent: no fault of the peer's. */
public final class UnreadableFile extends IOException {
  private static final long serialVersionUID = 1L;

  /** Takes what the disk said. */
  UnreadableFile(IOException cause) {
    super("cannot be read: " + cause.getMessage(), cause);
  }

  /** Returns a stream whose faults are told apart from those of a connection. */
  static InputStream telling(InputStream in, Consumer<UnreadableFile> told) {
    return new FilterInputStream(in) {
      private UnreadableFile fault(IOException e) {
        UnreadableFile fault = new UnreadableFile(e);
        told.accept(fault);
        return fault;
      }

      @Override
      public int read() throws IOException {
        try {
          return in.read();
        } catch (IOException e) {
          throw fault(e);
        }
      }

      @Override
      public int read(byte[] bytes, int offset, int length) throws IOException {
        try {
          return in.read(bytes, offset, length);
        } catch (IOException e) {
          throw fault(e);
        }
      }
    };
  }
}

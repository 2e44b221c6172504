package org.isopach.dicom.codec;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;

/**
 * The process a native library runs in: takes frames from one stream, gives pixels to another, and
 * ends when nobody asks any more. Started by {@link DecoderWorker}; not for calling by hand.
 */
public final class WorkerMain {
  static final int READY = 1;
  static final int MISSING = 2;
  static final int DECODED = 3;
  static final int REFUSED = 4;

  /** Decodes a frame whose header was checked. */
  interface Decoding {
    /** Returns samples row by row, the lower 16 bits of each, big endian. */
    byte[] decode(byte[] frame, StreamHeader header) throws IOException;
  }

  private static final ScheduledExecutorService WATCH =
      Executors.newSingleThreadScheduledExecutor(WorkerMain::daemon);

  private WorkerMain() {}

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "frame watch");
    thread.setDaemon(true);
    return thread;
  }

  /** Native code that hangs cannot be interrupted, and who asked may be gone. */
  private static void end() {
    Runtime.getRuntime().halt(1);
  }

  /** Serves a codec with a library, the two arguments, until standard input ends. */
  public static void main(String[] args) throws IOException {
    InputStream from = new FileInputStream(FileDescriptor.in);
    OutputStream to = new FileOutputStream(FileDescriptor.out);
    serve(
        NativeCodec.valueOf(args[0]),
        args[1],
        new DataInputStream(new BufferedInputStream(from, 1 << 16)),
        new DataOutputStream(new BufferedOutputStream(to, 1 << 16)));
  }

  private static void serve(
      NativeCodec codec, String library, DataInputStream in, DataOutputStream out)
      throws IOException {
    Decoding decoding;
    try {
      decoding =
          codec == NativeCodec.CHARLS
              ? CharlsDecoding.load(library)
              : OpenJpegDecoding.load(library);
    } catch (UnsatisfiedLinkError e) {
      out.writeByte(MISSING);
      out.flush();
      return;
    }
    out.writeByte(READY);
    out.flush();
    while (one(codec, decoding, in, out)) {
      out.flush();
    }
  }

  private static boolean one(
      NativeCodec codec, Decoding decoding, DataInputStream in, DataOutputStream out)
      throws IOException {
    byte[] frame;
    try {
      frame = new byte[in.readInt()];
    } catch (EOFException e) {
      return false;
    }
    in.readFully(frame);
    ScheduledFuture<?> alarm =
        WATCH.schedule(WorkerMain::end, DecoderWorker.LONGEST_SECONDS, TimeUnit.SECONDS);
    try {
      byte[] pixels = decoding.decode(frame, StreamHeader.of(codec, frame));
      out.writeByte(DECODED);
      out.write(pixels);
    } catch (IOException e) {
      out.writeByte(REFUSED);
      out.writeUTF(String.valueOf(e.getMessage()));
    } finally {
      alarm.cancel(false);
    }
    return true;
  }
}

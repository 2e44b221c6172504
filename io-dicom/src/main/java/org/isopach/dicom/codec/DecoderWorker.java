package org.isopach.dicom.codec;

import com.sun.jna.Native;
import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.File;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;

/** A process that decodes frames, one at a time. Not for several threads at once. */
final class DecoderWorker {
  static final int LONGEST_SECONDS = 60;
  private static final ScheduledExecutorService WATCH =
      Executors.newSingleThreadScheduledExecutor(DecoderWorker::daemon);

  private final Process process;
  private final DataInputStream in;
  private final DataOutputStream out;

  /** The process ended, hung or talks nonsense. */
  static final class Lost extends IOException {
    private static final long serialVersionUID = 1L;

    Lost(Throwable cause) {
      super("the decoder failed on the frame and was ended", cause);
    }
  }

  /** The library is not there. */
  static final class Missing extends IOException {
    private static final long serialVersionUID = 1L;

    Missing() {
      super("the library is missing");
    }
  }

  private DecoderWorker(Process process) {
    this.process = process;
    this.in = new DataInputStream(new BufferedInputStream(process.getInputStream(), 1 << 16));
    this.out = new DataOutputStream(new BufferedOutputStream(process.getOutputStream(), 1 << 16));
  }

  /**
   * Starts a process. It ends with this one, since its input then ends, or with the frame it is at,
   * which takes {@value #LONGEST_SECONDS} s at most; if it fails it writes no report of its memory
   * anywhere.
   */
  static DecoderWorker start(NativeCodec codec, String library) throws IOException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    Process process =
        new ProcessBuilder(
                java,
                "-Xmx768m",
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-XX:-UsePerfData",
                "-XX:+DisplayVMOutputToStderr",
                "-XX:-CreateCoredumpOnCrash",
                "-XX:ErrorFile=/dev/null",
                "-cp",
                classPath(),
                WorkerMain.class.getName(),
                codec.name(),
                library)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    DecoderWorker worker = new DecoderWorker(process);
    int answer = worker.watched(worker.in::readByte);
    if (answer != WorkerMain.READY) {
      worker.end();
      throw answer == WorkerMain.MISSING ? new Missing() : new Lost(null);
    }
    return worker;
  }

  /** Returns where this class and the bridge to native code come from, and nothing else. */
  private static String classPath() throws IOException {
    return String.join(File.pathSeparator, List.of(origin(WorkerMain.class), origin(Native.class)));
  }

  private static String origin(Class<?> type) throws IOException {
    try {
      return Path.of(type.getProtectionDomain().getCodeSource().getLocation().toURI()).toString();
    } catch (URISyntaxException e) {
      throw new IOException("the program's own files cannot be found", e);
    }
  }

  /**
   * Returns the samples of a frame, row by row, 16 bits of each, big endian.
   *
   * @throws Lost when the process is of no use any more
   * @throws IOException when the frame is refused
   */
  byte[] decode(byte[] frame, StreamHeader header) throws IOException {
    int answer = watched(() -> ask(frame));
    if (answer == WorkerMain.DECODED) {
      byte[] samples = new byte[2 * header.width() * header.height()];
      watched(
          () -> {
            in.readFully(samples);
            return 0;
          });
      return samples;
    }
    if (answer != WorkerMain.REFUSED) {
      end();
      throw new Lost(null);
    }
    String[] reason = new String[1];
    watched(
        () -> {
          reason[0] = in.readUTF();
          return 0;
        });
    throw new IOException(reason[0]);
  }

  private int ask(byte[] frame) throws IOException {
    out.writeInt(frame.length);
    out.write(frame);
    out.flush();
    return in.readByte();
  }

  private interface Exchange {
    int run() throws IOException;
  }

  /** Runs an exchange and ends the process when it fails or takes too long. */
  private int watched(Exchange exchange) throws Lost {
    ScheduledFuture<?> alarm = WATCH.schedule(this::end, LONGEST_SECONDS, TimeUnit.SECONDS);
    try {
      return exchange.run();
    } catch (IOException e) {
      end();
      throw new Lost(e);
    } finally {
      alarm.cancel(false);
    }
  }

  boolean alive() {
    return process.isAlive();
  }

  /** Ends the process. */
  void end() {
    process.destroyForcibly();
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "decoder watch");
    thread.setDaemon(true);
    return thread;
  }
}

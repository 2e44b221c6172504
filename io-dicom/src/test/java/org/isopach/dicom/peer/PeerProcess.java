package org.isopach.dicom.peer;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** A program of others that listens. It is started until it does, and killed at the end. */
public final class PeerProcess implements AutoCloseable {
  private static final int MOST_STARTS = 5;
  private static final Duration PATIENCE = Duration.ofMinutes(2);

  private final Process process;
  private final int[] ports;
  private final Path log;
  private final Thread last;

  /** Says how a program is called. */
  @FunctionalInterface
  public interface Command {
    /** Returns the words of a call that listens on these ports. */
    List<String> on(int... ports) throws IOException;
  }

  private PeerProcess(Process process, int[] ports, Path log) {
    this.process = process;
    this.ports = ports;
    this.log = log;
    this.last = new Thread(process::destroyForcibly);
    Runtime.getRuntime().addShutdownHook(last);
  }

  /**
   * Starts a program and waits until it listens. One that ends before has found a port taken, and
   * is started with others.
   *
   * @param log where its words go
   * @param count on how many ports it listens
   */
  public static PeerProcess start(Path log, int count, Command command)
      throws IOException, InterruptedException {
    for (int start = 0; start < MOST_STARTS; start++) {
      int[] ports = new int[count];
      for (int i = 0; i < count; i++) {
        ports[i] = Ports.free();
      }
      Process process =
          new ProcessBuilder(command.on(ports))
              .redirectErrorStream(true)
              .redirectOutput(log.toFile())
              .start();
      PeerProcess peer = new PeerProcess(process, ports, log);
      if (peer.comesToListen()) {
        return peer;
      }
      peer.close();
    }
    throw new AssertionError("it does not listen: " + Files.readString(log));
  }

  /** Starts a program whose last word is the port it listens on. */
  public static PeerProcess start(Path log, List<String> call)
      throws IOException, InterruptedException {
    return start(
        log,
        1,
        ports -> Stream.concat(call.stream(), Stream.of(Integer.toString(ports[0]))).toList());
  }

  private boolean comesToListen() throws InterruptedException {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (process.isAlive() && System.nanoTime() < end) {
      if (IntStream.of(ports).allMatch(PeerProcess::listens)) {
        return process.isAlive();
      }
      Thread.sleep(20);
    }
    return false;
  }

  private static boolean listens(int port) {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      return socket.isConnected();
    } catch (IOException e) {
      return false;
    }
  }

  /** Returns one of the ports it listens on. */
  public int port(int index) {
    return ports[index];
  }

  /** Returns whether it runs, and what it said so far. */
  public String state() throws IOException {
    String state = process.isAlive() ? "it runs" : "it ended with " + process.exitValue();
    return state + "; its log: " + Files.readString(log);
  }

  /** Kills it and whatever it started. */
  @Override
  public void close() {
    // Their end is not awaited: where nobody reaps orphans, they seem to live for ever.
    process.descendants().forEach(ProcessHandle::destroyForcibly);
    process.destroyForcibly().onExit().join();
    Runtime.getRuntime().removeShutdownHook(last);
  }
}

package org.isopach.dicom.network;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.Semaphore;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLSocket;

/**
 * Takes associations, a bounded number at once, each in a thread of its own.
 *
 * <p>Whatever a peer does ends its own association at most. Thread-safe.
 */
final class AssociationServer implements Closeable {
  private static final int BACKLOG = 64;
  private static final int REJECT_MILLIS = 5000;
  private static final int PAUSE_MILLIS = 100;
  private static final Duration GRACE = Duration.ofSeconds(10);

  private final ListenerSettings settings;
  private final NetworkEvents events;
  private final Offer offer;
  private final Session session;
  private final ServerSocket server;
  private final Semaphore places;
  private final Set<PduChannel> open = ConcurrentHashMap.newKeySet();
  private final ExecutorService sessions = Executors.newCachedThreadPool();
  private final ThreadPoolExecutor rejections =
      new ThreadPoolExecutor(1, 1, 0, TimeUnit.SECONDS, new ArrayBlockingQueue<>(BACKLOG));
  private volatile boolean closing;

  /** What is done on an association that was accepted. */
  @FunctionalInterface
  interface Session {
    /** Answers until the peer releases; returns a line that says what was done. */
    String serve(Association association) throws IOException;
  }

  private AssociationServer(
      ListenerSettings settings,
      NetworkEvents events,
      Offer offer,
      Session session,
      ServerSocket server) {
    this.settings = settings;
    this.events = events;
    this.offer = offer;
    this.session = session;
    this.server = server;
    this.places = new Semaphore(settings.mostAssociations());
  }

  /**
   * Starts to listen; returns at once.
   *
   * @throws IOException when the port is taken
   */
  static AssociationServer start(
      ListenerSettings settings, NetworkEvents events, Offer offer, Session session)
      throws IOException {
    ServerSocket server = new ServerSocket();
    try {
      server.setReuseAddress(true);
      server.bind(new InetSocketAddress(settings.port()), BACKLOG);
    } catch (IOException e) {
      server.close();
      throw new IOException("cannot listen on port " + settings.port() + ": " + e.getMessage(), e);
    }
    AssociationServer started = new AssociationServer(settings, events, offer, session, server);
    started.sessions.execute(started::listen);
    return started;
  }

  /** Returns the port listened on. */
  int port() {
    return server.getLocalPort();
  }

  private void listen() {
    while (!closing) {
      try {
        took(server.accept());
      } catch (IOException | RuntimeException | OutOfMemoryError e) {
        if (!closing) {
          refuse("a connection failed: " + e.getMessage());
          pause();
        }
      }
    }
  }

  /** Whatever fails here must not make the server deaf. */
  private void took(Socket wire) throws IOException {
    try {
      take(wire);
    } catch (RuntimeException | OutOfMemoryError e) {
      wire.close();
      throw e;
    }
  }

  /** What keeps connections from being taken may last, such as too many open files. */
  private static void pause() {
    try {
      TimeUnit.MILLISECONDS.sleep(PAUSE_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void take(Socket wire) throws IOException {
    String from = wire.getInetAddress().getHostAddress();
    boolean allowed =
        settings.addresses().isEmpty()
            || settings.addresses().stream()
                .anyMatch(range -> range.contains(wire.getInetAddress()));
    if (!allowed) {
      wire.close();
      refuse(from + " was refused: its address may not call");
    } else if (places.tryAcquire()) {
      begin(wire);
    } else {
      refuse(from + " was refused: too many associations");
      rejectForNow(wire);
    }
  }

  /** There may be no thread for it. */
  private void begin(Socket wire) {
    try {
      sessions.execute(() -> serve(wire));
    } catch (RuntimeException | OutOfMemoryError e) {
      places.release();
      throw e;
    }
  }

  private void rejectForNow(Socket wire) throws IOException {
    try {
      rejections.execute(() -> politely(wire));
    } catch (RejectedExecutionException e) {
      wire.close();
    }
  }

  private void politely(Socket wire) {
    try (wire) {
      wire.setSoTimeout(REJECT_MILLIS);
      PduChannel channel = channel(wire);
      Future<?> end = Watch.after(REJECT_MILLIS, channel::kill);
      Acceptor.rejectForNow(channel);
      end.cancel(false);
    } catch (IOException e) {
      refuse("a rejection was not heard: " + e.getMessage());
    }
  }

  private PduChannel channel(Socket wire) throws IOException {
    if (settings.tls().isEmpty()) {
      return new PduChannel(wire, wire);
    }
    SSLSocket secure =
        (SSLSocket) settings.tls().get().getSocketFactory().createSocket(wire, null, true);
    secure.setNeedClientAuth(settings.peerMustProveItself());
    return new PduChannel(secure, wire);
  }

  private void serve(Socket wire) {
    String from = wire.getInetAddress().getHostAddress();
    try (wire) {
      wire.setSoTimeout((int) settings.patience().toMillis());
      PduChannel channel = channel(wire);
      open.add(channel);
      try {
        serve(channel, wire);
      } catch (AssociationException e) {
        refuse(from + ": " + e.getMessage());
        if (e.toBeAborted()) {
          channel.abort(e.reason());
        }
      } catch (SocketTimeoutException e) {
        refuse(from + ": silent for too long");
        channel.abort(AssociationException.UNSPECIFIED);
      } catch (IOException e) {
        refuse(from + ": " + (channel.killed() ? "cut off, too slow" : failed(e)));
      } finally {
        open.remove(channel);
      }
    } catch (IOException e) {
      refuse(from + ": " + failed(e));
    } catch (RuntimeException | OutOfMemoryError e) {
      refuse(from + ": cut off, this program failed: " + e);
    } finally {
      places.release();
    }
  }

  private static String failed(IOException e) {
    return "the connection failed: " + e.getMessage();
  }

  private void refuse(String line) {
    events.event(NetworkEvents.Kind.REFUSED, line);
  }

  /** Who has a place must ask for an association in time, whatever it drips (PS3.8, 9.1.4). */
  private void serve(PduChannel channel, Socket wire) throws IOException {
    Future<?> end = Watch.after(wire.getSoTimeout(), channel::kill);
    Association association;
    try {
      association = Acceptor.accept(channel, wire.getInetAddress(), settings, offer);
    } finally {
      end.cancel(false);
    }
    events.event(
        NetworkEvents.Kind.DONE,
        association.peer() + " released after " + session.serve(association));
  }

  /** Stops: no new association is taken, open ones get ten seconds, then they are cut off. */
  @Override
  public void close() throws IOException {
    closing = true;
    server.close();
    sessions.shutdown();
    rejections.shutdown();
    try {
      if (!sessions.awaitTermination(GRACE.toSeconds(), TimeUnit.SECONDS)) {
        open.forEach(PduChannel::kill);
        sessions.awaitTermination(GRACE.toSeconds(), TimeUnit.SECONDS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      open.forEach(PduChannel::kill);
    }
  }
}

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
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.Semaphore;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLServerSocket;

/**
 * Listens for C-ECHO and C-STORE and keeps what it gets (see {@link ReceivedObjects}).
 *
 * <p>Whatever a peer does ends its own association at most. Thread-safe.
 */
public final class StorageListener implements Closeable {
  private static final int BACKLOG = 64;
  private static final int REJECT_MILLIS = 5000;
  private static final Duration GRACE = Duration.ofSeconds(10);

  private final ListenerSettings settings;
  private final NetworkEvents events;
  private final ReceivedObjects objects;
  private final ServerSocket server;
  private final Semaphore places;
  private final Set<PduChannel> open = ConcurrentHashMap.newKeySet();
  private final ExecutorService sessions = Executors.newCachedThreadPool();
  private final ThreadPoolExecutor rejections =
      new ThreadPoolExecutor(1, 1, 0, TimeUnit.SECONDS, new ArrayBlockingQueue<>(BACKLOG));
  private volatile boolean closing;

  private StorageListener(
      ListenerSettings settings,
      NetworkEvents events,
      ReceivedObjects objects,
      ServerSocket server) {
    this.settings = settings;
    this.events = events;
    this.objects = objects;
    this.server = server;
    this.places = new Semaphore(settings.mostAssociations());
  }

  /**
   * Starts to listen; returns at once.
   *
   * @throws IOException when the port is taken or the folder cannot be used
   */
  public static StorageListener start(ListenerSettings settings, NetworkEvents events)
      throws IOException {
    ReceivedObjects objects = ReceivedObjects.open(settings.folder());
    try {
      ServerSocket server = serverSocket(settings);
      server.setReuseAddress(true);
      server.bind(new InetSocketAddress(settings.port()), BACKLOG);
      StorageListener listener = new StorageListener(settings, events, objects, server);
      listener.sessions.execute(listener::listen);
      return listener;
    } catch (IOException e) {
      objects.close();
      throw e;
    }
  }

  private static ServerSocket serverSocket(ListenerSettings settings) throws IOException {
    if (settings.tls().isEmpty()) {
      return new ServerSocket();
    }
    SSLServerSocket secure =
        (SSLServerSocket) settings.tls().get().getServerSocketFactory().createServerSocket();
    secure.setNeedClientAuth(settings.peerMustProveItself());
    return secure;
  }

  /** Returns the port listened on. */
  public int port() {
    return server.getLocalPort();
  }

  /** Returns how many objects the folder holds. */
  public int size() {
    return objects.size();
  }

  private void listen() {
    while (!closing) {
      try {
        take(server.accept());
      } catch (IOException e) {
        if (!closing) {
          events.event(NetworkEvents.Kind.REFUSED, "a connection failed: " + e.getMessage());
        }
      }
    }
  }

  private void take(Socket socket) throws IOException {
    String from = socket.getInetAddress().getHostAddress();
    boolean allowed =
        settings.addresses().isEmpty()
            || settings.addresses().stream()
                .anyMatch(range -> range.contains(socket.getInetAddress()));
    if (!allowed) {
      socket.close();
      events.event(NetworkEvents.Kind.REFUSED, from + " was refused: its address may not call");
    } else if (places.tryAcquire()) {
      sessions.execute(() -> serve(socket));
    } else {
      events.event(NetworkEvents.Kind.REFUSED, from + " was refused: too many associations");
      rejectForNow(socket);
    }
  }

  private void rejectForNow(Socket socket) throws IOException {
    try {
      rejections.execute(() -> politely(socket));
    } catch (RejectedExecutionException e) {
      socket.close();
    }
  }

  private void politely(Socket socket) {
    try (socket) {
      socket.setSoTimeout(REJECT_MILLIS);
      Acceptor.rejectForNow(new PduChannel(socket));
    } catch (IOException e) {
      events.event(NetworkEvents.Kind.REFUSED, "a rejection was not heard: " + e.getMessage());
    }
  }

  private void serve(Socket socket) {
    String from = socket.getInetAddress().getHostAddress();
    try (socket) {
      socket.setSoTimeout((int) settings.patience().toMillis());
      PduChannel channel = new PduChannel(socket);
      open.add(channel);
      try {
        serve(channel, socket);
      } catch (AssociationException e) {
        events.event(NetworkEvents.Kind.REFUSED, from + ": " + e.getMessage());
        if (e.toBeAborted()) {
          channel.abort(e.reason());
        }
      } catch (SocketTimeoutException e) {
        events.event(NetworkEvents.Kind.REFUSED, from + ": silent for too long");
        channel.abort(AssociationException.UNSPECIFIED);
      } finally {
        open.remove(channel);
      }
    } catch (IOException e) {
      events.event(NetworkEvents.Kind.REFUSED, from + ": the connection failed: " + e.getMessage());
    } finally {
      places.release();
    }
  }

  private void serve(PduChannel channel, Socket socket) throws IOException {
    Association association =
        Acceptor.accept(channel, socket.getInetAddress(), settings.aet(), settings.callers());
    int stored = new StoreSession(association, objects, settings.mostObjectBytes(), events).run();
    events.event(
        NetworkEvents.Kind.DONE, association.peer() + " released after " + stored + " objects");
  }

  /**
   * Stops: no new association is taken, open ones get ten seconds, then they are aborted. What was
   * not acknowledged leaves nothing behind.
   */
  @Override
  public void close() throws IOException {
    closing = true;
    server.close();
    sessions.shutdown();
    rejections.shutdown();
    try {
      if (!sessions.awaitTermination(GRACE.toSeconds(), TimeUnit.SECONDS)) {
        open.forEach(PduChannel::close);
        sessions.awaitTermination(GRACE.toSeconds(), TimeUnit.SECONDS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      open.forEach(PduChannel::close);
    }
    objects.close();
  }
}

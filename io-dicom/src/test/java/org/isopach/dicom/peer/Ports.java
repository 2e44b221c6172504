package org.isopach.dicom.peer;

import java.io.IOException;
import java.net.BindException;
import java.net.ServerSocket;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Ports for those who must be told one before they listen. They lie below the ports systems give to
 * callers (on Linux those from 32768, in some sandboxes those from 16000), so that no connection
 * takes one in between; and none is given twice in a run.
 */
public final class Ports {
  private static final int FIRST = 10_000;
  private static final int COUNT = 6_000;
  private static final int SPREAD = 37;
  private static final AtomicInteger NEXT =
      new AtomicInteger((int) (ProcessHandle.current().pid() * SPREAD % COUNT));

  private Ports() {}

  /** Returns a port nobody listens on. */
  public static int free() throws IOException {
    for (int tries = 0; tries < COUNT; tries++) {
      int port = FIRST + Math.floorMod(NEXT.getAndIncrement(), COUNT);
      try (ServerSocket socket = new ServerSocket(port)) {
        return socket.getLocalPort();
      } catch (BindException e) {
        // The next one may be free.
      }
    }
    throw new IOException("no port is free");
  }
}

package org.isopach.dicom.network;

import java.io.EOFException;
import java.net.SocketException;

/** Tells a connection that broke while it was being secured from one that cannot be secured. */
public final class BrokenHandshake {
  /**
   * What the HTTP client of the JDK says, without a cause, when the peer closed in the middle. The
   * words are those of JDK 17; SecuredWebTest fails when a JDK says others.
   */
  private static final String CLOSED = "Remote host terminated the handshake";

  private BrokenHandshake() {}

  /** Returns whether the connection broke, as when a peer starts anew: another try may work. */
  public static boolean is(Throwable failure) {
    for (Throwable at = failure; at != null; at = at.getCause()) {
      if (at instanceof EOFException
          || at instanceof SocketException
          || CLOSED.equals(at.getMessage())) {
        return true;
      }
    }
    return false;
  }
}

package org.isopach.dicom.network;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.net.ssl.SSLContext;

/**
 * How a listener behaves.
 *
 * @param port to listen on; 0 for any free one
 * @param aet our title; associations that call another are rejected
 * @param folder where objects go
 * @param callers titles that may call; empty for all
 * @param addresses where calls may come from; empty for everywhere
 * @param mostAssociations open at once; others are rejected for the moment
 * @param mostObjectBytes the longest data set taken
 * @param patience how long a silent peer is waited for
 * @param tls how the connection is secured; empty for plain connections
 * @param peerMustProveItself with TLS, whether the peer needs a certificate we trust
 * @param commitTo where reports of storage commitment go that are not sent on the association they
 *     were asked for on: to peers with these titles
 */
public record ListenerSettings(
    int port,
    String aet,
    Path folder,
    Set<String> callers,
    List<AddressRange> addresses,
    int mostAssociations,
    long mostObjectBytes,
    Duration patience,
    Optional<SSLContext> tls,
    boolean peerMustProveItself,
    List<Destination> commitTo) {
  /** Associations open at once, unless said otherwise. */
  public static final int ASSOCIATIONS = 16;

  /** The longest data set taken, unless said otherwise. */
  public static final long OBJECT_BYTES = 4L << 30;

  /** How long a silent peer is waited for, unless said otherwise. */
  public static final Duration PATIENCE = Duration.ofSeconds(60);

  /** Copies the sets. */
  public ListenerSettings {
    callers = Set.copyOf(callers);
    addresses = List.copyOf(addresses);
    commitTo = List.copyOf(commitTo);
  }

  /** Makes settings with every report of storage commitment on the association it belongs to. */
  public ListenerSettings(
      int port,
      String aet,
      Path folder,
      Set<String> callers,
      List<AddressRange> addresses,
      int mostAssociations,
      long mostObjectBytes,
      Duration patience,
      Optional<SSLContext> tls,
      boolean peerMustProveItself) {
    this(
        port,
        aet,
        folder,
        callers,
        addresses,
        mostAssociations,
        mostObjectBytes,
        patience,
        tls,
        peerMustProveItself,
        List.of());
  }

  /** Returns the usual settings: anyone may call, without TLS. */
  public static ListenerSettings usual(int port, String aet, Path folder) {
    return new ListenerSettings(
        port,
        aet,
        folder,
        Set.of(),
        List.of(),
        ASSOCIATIONS,
        OBJECT_BYTES,
        PATIENCE,
        Optional.empty(),
        false);
  }

  /** Returns these settings with TLS, or without when the context is empty. */
  public ListenerSettings secured(Optional<SSLContext> context, boolean peerMust) {
    return new ListenerSettings(
        port,
        aet,
        folder,
        callers,
        addresses,
        mostAssociations,
        mostObjectBytes,
        patience,
        context,
        peerMust,
        commitTo);
  }

  /** Returns these settings with where some peers want their reports of storage commitment. */
  public ListenerSettings committingTo(List<Destination> peers) {
    return new ListenerSettings(
        port,
        aet,
        folder,
        callers,
        addresses,
        mostAssociations,
        mostObjectBytes,
        patience,
        tls,
        peerMustProveItself,
        peers);
  }
}

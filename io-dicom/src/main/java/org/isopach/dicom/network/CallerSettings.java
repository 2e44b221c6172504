package org.isopach.dicom.network;

import java.time.Duration;
import java.util.Optional;
import javax.net.ssl.SSLContext;

/**
 * How another application is called.
 *
 * @param callingAet our title
 * @param to who is called
 * @param patience how long an answer is waited for
 * @param tls how the connection is secured, with the host's name checked; empty for plain ones
 * @param retries how often a lost connection is made anew
 */
public record CallerSettings(
    String callingAet, Destination to, Duration patience, Optional<SSLContext> tls, int retries) {}

package org.isopach.job.post;

import java.util.Optional;

/**
 * What a server answered.
 *
 * @param status of HTTP
 * @param body as text
 * @param location where it points to, if it does
 * @param retryAfterSeconds how long it asks to be left alone, if it does
 */
record Reply(int status, String body, Optional<String> location, Optional<Long> retryAfterSeconds) {
  private static final int TOO_MANY_REQUESTS = 429;

  boolean good() {
    return status / 100 == 2;
  }

  /** Returns whether the same request may be answered better later. */
  boolean passing() {
    return status == TOO_MANY_REQUESTS || status / 100 == 5;
  }
}

package org.isopach.dicom.web;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.Flow;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * The body of an answer as a stream that gives up when the server is silent for too long. One
 * thread reads; the next buffers are asked for when the last are used up, so a fast server is held
 * back.
 */
final class PatientStream extends InputStream implements Flow.Subscriber<List<ByteBuffer>> {
  /** What came: buffers, the end (no buffers, no failure), or a failure. */
  private record Event(List<ByteBuffer> buffers, Throwable failure, boolean end) {}

  private final Duration patience;
  private final BlockingQueue<Event> events = new LinkedBlockingQueue<>();
  private final Deque<ByteBuffer> ready = new ArrayDeque<>();
  private volatile Flow.Subscription subscription;
  private boolean closed;
  private boolean ended;

  PatientStream(Duration patience) {
    this.patience = patience;
  }

  @Override
  public void onSubscribe(Flow.Subscription given) {
    subscription = given;
    given.request(1);
  }

  @Override
  public void onNext(List<ByteBuffer> buffers) {
    events.add(new Event(buffers, null, false));
  }

  @Override
  public void onError(Throwable failure) {
    events.add(new Event(List.of(), failure, true));
  }

  @Override
  public void onComplete() {
    events.add(new Event(List.of(), null, true));
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] bytes, int offset, int length) throws IOException {
    if (closed) {
      throw new IOException("the answer was closed");
    }
    while (ready.isEmpty() && !ended) {
      await();
    }
    ByteBuffer first = ready.peek();
    if (first == null) {
      return -1;
    }
    int count = Math.min(length, first.remaining());
    first.get(bytes, offset, count);
    if (!first.hasRemaining()) {
      ready.remove();
      if (ready.isEmpty()) {
        subscription.request(1);
      }
    }
    return count;
  }

  private void await() throws IOException {
    Event event;
    try {
      event = events.poll(patience.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
    if (event == null) {
      close();
      throw WebException.lost("the server was silent for " + patience.toSeconds() + " s");
    }
    if (event.failure() != null) {
      throw new IOException(
          "the answer broke off: " + event.failure().getMessage(), event.failure());
    }
    ended = event.end();
    event.buffers().stream().filter(ByteBuffer::hasRemaining).forEach(ready::add);
    if (ready.isEmpty() && !ended) {
      subscription.request(1);
    }
  }

  /** Ends the answer, whatever is left of it. */
  @Override
  public void close() {
    closed = true;
    Flow.Subscription given = subscription;
    if (given != null) {
      given.cancel();
    }
  }
}

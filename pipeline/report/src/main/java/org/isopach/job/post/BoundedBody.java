package org.isopach.job.post;

import java.io.IOException;
import java.net.http.HttpResponse.BodySubscriber;
import java.net.http.HttpResponse.BodySubscribers;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;

/** Takes an answer as text in UTF-8, up to so many bytes: a server decides what it sends. */
final class BoundedBody implements BodySubscriber<String> {
  private final BodySubscriber<String> text = BodySubscribers.ofString(StandardCharsets.UTF_8);
  private final long most;
  private Flow.Subscription subscription;
  private long taken;

  BoundedBody(long most) {
    this.most = most;
  }

  @Override
  public CompletionStage<String> getBody() {
    return text.getBody();
  }

  @Override
  public void onSubscribe(Flow.Subscription given) {
    subscription = given;
    text.onSubscribe(given);
  }

  @Override
  public void onNext(List<ByteBuffer> buffers) {
    taken += buffers.stream().mapToLong(ByteBuffer::remaining).sum();
    if (taken > most) {
      subscription.cancel();
      text.onError(new IOException("the answer is longer than " + most + " bytes"));
    } else {
      text.onNext(buffers);
    }
  }

  @Override
  public void onError(Throwable failure) {
    text.onError(failure);
  }

  @Override
  public void onComplete() {
    text.onComplete();
  }
}

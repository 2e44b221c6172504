package org.isopach.segment;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;

/**
 * Runs a piece of work for every frame on a pool's threads. Each worker has tools of its own; which
 * worker gets which frame does not matter, since results are stored by frame.
 */
final class FrameLoop {
  private final ExecutorService pool;
  private final int threads;

  FrameLoop(ExecutorService pool, int threads) {
    this.pool = pool;
    this.threads = threads;
  }

  /** One worker's way with a frame. */
  @FunctionalInterface
  interface Work {
    void frame(int frame);
  }

  /**
   * Runs the work for frames 0 to {@code frames - 1} and waits for all.
   *
   * @param workers makes one worker for each thread
   * @throws InterruptedException when this thread is interrupted; the workers then stop soon
   */
  void run(int frames, Supplier<Work> workers) throws InterruptedException {
    AtomicInteger next = new AtomicInteger();
    List<Future<?>> running = new ArrayList<>();
    for (int t = 0; t < Math.min(threads, frames); t++) {
      running.add(
          pool.submit(
              () -> {
                Work work = workers.get();
                int frame = next.getAndIncrement();
                while (frame < frames && !Thread.currentThread().isInterrupted()) {
                  work.frame(frame);
                  frame = next.getAndIncrement();
                }
              }));
    }
    try {
      for (Future<?> worker : running) {
        worker.get();
      }
    } catch (ExecutionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw new IllegalStateException(e.getCause());
    } finally {
      next.set(frames);
      running.forEach(worker -> worker.cancel(true));
    }
  }
}

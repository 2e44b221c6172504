package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;

/** Runs pieces of work on the threads of a pool. */
public final class SideBySide {
  private SideBySide() {}

  /**
   * Returns the results of all pieces in their order.
   *
   * @throws IllegalStateException when a piece fails
   * @throws InterruptedException when the calling thread is interrupted
   */
  public static <T> List<T> all(ExecutorService pool, List<Callable<T>> pieces)
      throws InterruptedException {
    List<Future<T>> running = new ArrayList<>();
    for (Callable<T> piece : pieces) {
      running.add(pool.submit(piece));
    }
    List<T> results = new ArrayList<>();
    for (Future<T> future : running) {
      try {
        results.add(future.get());
      } catch (ExecutionException e) {
        throw new IllegalStateException("a phantom could not be measured", e.getCause());
      }
    }
    return results;
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Future;

/** Runs pieces of work side by side and gives their results in the order of the pieces. */
final class Workers {
  private Workers() {}

  /**
   * Returns the results in order; waits for all pieces even when one fails.
   *
   * @throws InterruptedException when the caller is interrupted
   */
  static <T> List<T> all(ExecutorService pool, List<Callable<T>> pieces)
      throws InterruptedException {
    List<T> results = new ArrayList<>();
    for (Future<T> future : pool.invokeAll(pieces)) {
      try {
        results.add(future.get());
      } catch (ExecutionException e) {
        throw unchecked(e.getCause());
      }
    }
    return results;
  }

  private static RuntimeException unchecked(Throwable cause) {
    if (cause instanceof RuntimeException failure) {
      return failure;
    }
    if (cause instanceof Error error) {
      throw error;
    }
    return new WorkFailedException(cause);
  }
}

package org.isopach.cli.accuracy;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;

/** Tells on a stream how far the work is. */
public final class Progress {
  private static final int TURNS = 10;

  private final PrintWriter stream;

  /** Tells on a stream. */
  public Progress(PrintWriter stream) {
    this.stream = stream;
  }

  /** Returns pieces of work that tell when some more of them are done. */
  public <T> List<Callable<T>> watching(String what, List<Callable<T>> work) {
    AtomicInteger done = new AtomicInteger();
    int every = Math.max(1, work.size() / TURNS);
    List<Callable<T>> told = new ArrayList<>();
    for (Callable<T> piece : work) {
      told.add(
          () -> {
            T result = piece.call();
            int count = done.incrementAndGet();
            if (count % every == 0 || count == work.size()) {
              stream.println(count + "/" + work.size() + " " + what);
              stream.flush();
            }
            return result;
          });
    }
    return told;
  }
}

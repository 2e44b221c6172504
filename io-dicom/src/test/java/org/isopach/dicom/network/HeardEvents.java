package org.isopach.dicom.network;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;

/** Keeps the lines of a log. */
final class HeardEvents implements NetworkEvents {
  private final List<String> refused = new CopyOnWriteArrayList<>();

  @Override
  public void event(Kind kind, String line) {
    if (kind == Kind.REFUSED) {
      refused.add(line);
    }
  }

  /** Waits up to five seconds for a line that holds a text. */
  boolean hear(String text) throws InterruptedException {
    for (int i = 0; i < 100; i++) {
      if (refused.stream().anyMatch(line -> line.contains(text))) {
        return true;
      }
      Thread.sleep(50);
    }
    return false;
  }

  @Override
  public String toString() {
    return refused.toString();
  }
}

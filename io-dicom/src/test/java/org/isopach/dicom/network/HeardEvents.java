package org.isopach.dicom.network;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;

/** Keeps the lines of a log. */
final class HeardEvents implements NetworkEvents {
  private final List<String> refused = new CopyOnWriteArrayList<>();

  @Override
  public void event(Kind kind, String line) {
    if (kind == Kind.REFUSED) {
      refused.add(line);
    }
  }

  /** Waits up to a minute for a line that holds one of some texts. */
  boolean hear(String... texts) throws InterruptedException {
    for (int i = 0; i < 1200; i++) {
      if (refused.stream().anyMatch(line -> Stream.of(texts).anyMatch(line::contains))) {
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

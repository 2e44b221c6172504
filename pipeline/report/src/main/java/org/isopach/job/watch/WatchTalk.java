package org.isopach.job.watch;

/** Is told what a watcher does, in sentences. Called from one thread. */
public interface WatchTalk {
  /** What an operator should see. */
  default void say(String line) {}

  /** What is worth reading when looking for a reason. */
  default void detail(String line) {}
}

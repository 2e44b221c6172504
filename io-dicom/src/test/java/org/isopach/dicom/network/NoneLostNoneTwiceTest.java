package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.peer.Ports;
import org.isopach.dicom.read.InstanceIdentity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** 1000 objects from two senders of dcmtk at once, the listener killed ten times in between. */
@Timeout(900)
class NoneLostNoneTwiceTest {
  private static final int EACH = 500;
  private static final int KILLS = 10;
  private static final int CHUNK = 25;
  private static final Duration PATIENCE = Duration.ofMinutes(5);

  @TempDir Path folder;
  private final AtomicInteger acknowledged = new AtomicInteger();
  private final AtomicInteger failures = new AtomicInteger();

  @Test
  void holdsWithTheListenerKilledTenTimes() throws Exception {
    Peers.need("storescu");
    Path out = folder.resolve("out");
    int port = Ports.free();
    ListenerProcess listener = ListenerProcess.start(port, out);
    ExecutorService senders = Executors.newFixedThreadPool(2);
    try {
      List<Future<Void>> both =
          List.of(senders.submit(sender(port, 0)), senders.submit(sender(port, EACH)));
      for (int kill = 1; kill <= KILLS; kill++) {
        awaitAcknowledged(kill * 2 * EACH / (KILLS + 1));
        listener.kill();
        for (Path file : Peers.kept(out)) {
          InstanceIdentity.of(file);
        }
        listener = ListenerProcess.start(port, out);
      }
      for (Future<Void> one : both) {
        one.get(PATIENCE.toSeconds(), TimeUnit.SECONDS);
      }
    } finally {
      senders.shutdownNow();
      listener.kill();
    }

    assertTrue(failures.get() > 0, "no kill was felt by a sender");
    assertEquals(
        IntStream.range(0, 2 * EACH).mapToObj(i -> Peers.uid(i) + ".dcm").sorted().toList(),
        Peers.kept(out).stream().map(file -> file.getFileName().toString()).sorted().toList());
    for (Path file : Peers.kept(out)) {
      InstanceIdentity found = InstanceIdentity.of(file);
      assertEquals(found.sopUid() + ".dcm", file.getFileName().toString());
    }
  }

  /** Sends chunk after chunk, each again until all of it was acknowledged in one go. */
  private Callable<Void> sender(int port, int from) {
    return () -> {
      List<Path> files = Peers.objects(folder.resolve("in" + from), from, EACH);
      for (int at = 0; at < EACH; at += CHUNK) {
        String[] command =
            OutsidePeersTest.storescu(port, files.subList(at, Math.min(at + CHUNK, EACH)));
        long end = System.nanoTime() + PATIENCE.toNanos();
        for (ToolRun run = ToolRun.of(command); run.exit() != 0; run = ToolRun.of(command)) {
          assertTrue(System.nanoTime() < end, "a chunk was never taken: " + run.output());
          failures.incrementAndGet();
          Thread.sleep(50);
        }
        acknowledged.addAndGet(CHUNK);
      }
      return null;
    };
  }

  private void awaitAcknowledged(int count) throws InterruptedException {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (acknowledged.get() < count && System.nanoTime() < end) {
      Thread.sleep(5);
    }
    assertTrue(acknowledged.get() >= count, acknowledged.get() + " of " + count + " in time");
  }
}

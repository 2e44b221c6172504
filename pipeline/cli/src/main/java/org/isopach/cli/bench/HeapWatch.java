package org.isopach.cli.bench;

import com.sun.management.GarbageCollectionNotificationInfo;
import java.lang.management.GarbageCollectorMXBean;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.lang.management.MemoryUsage;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Collectors;
import javax.management.NotificationEmitter;
import javax.management.openmbean.CompositeData;

/** Watches how full the heap gets. */
final class HeapWatch {
  /**
   * What a run needed, in bytes.
   *
   * @param peak sum of the greatest use of every heap pool, garbage included; the pools need not
   *     have been full at one time
   * @param afterCollection greatest use right after a collection, which has less garbage in it
   */
  record Use(long peak, long afterCollection) {}

  private final List<MemoryPoolMXBean> pools =
      ManagementFactory.getMemoryPoolMXBeans().stream()
          .filter(pool -> pool.getType() == MemoryType.HEAP)
          .toList();
  private final Set<String> names =
      pools.stream().map(MemoryPoolMXBean::getName).collect(Collectors.toUnmodifiableSet());
  private final AtomicLong afterCollection = new AtomicLong();

  HeapWatch() {
    for (GarbageCollectorMXBean collector : ManagementFactory.getGarbageCollectorMXBeans()) {
      if (collector instanceof NotificationEmitter emitter) {
        emitter.addNotificationListener((note, handback) -> hear(note.getUserData()), null, null);
      }
    }
  }

  private void hear(Object data) {
    if (data instanceof CompositeData composite) {
      Map<String, MemoryUsage> after =
          GarbageCollectionNotificationInfo.from(composite).getGcInfo().getMemoryUsageAfterGc();
      long used =
          after.entrySet().stream()
              .filter(entry -> names.contains(entry.getKey()))
              .mapToLong(entry -> entry.getValue().getUsed())
              .sum();
      afterCollection.accumulateAndGet(used, Math::max);
    }
  }

  /** Starts anew from a collected heap. */
  void start() {
    System.gc();
    pools.forEach(MemoryPoolMXBean::resetPeakUsage);
    afterCollection.set(0);
  }

  /** Returns the use since the start. */
  Use stop() {
    long peak = pools.stream().mapToLong(pool -> pool.getPeakUsage().getUsed()).sum();
    return new Use(peak, afterCollection.get());
  }
}

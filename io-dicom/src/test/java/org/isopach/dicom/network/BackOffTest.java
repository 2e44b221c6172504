package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** The waits that docs/conformance.md promises. */
class BackOffTest {
  @Test
  void doublesUpToItsBound() {
    long[] seconds =
        IntStream.rangeClosed(0, 8)
            .mapToLong(failures -> BackOff.CONNECTIONS.after(failures).toSeconds())
            .toArray();
    assertEquals("0 1 2 4 8 16 32 60 60", words(seconds));

    BackOff minutes = new BackOff(Duration.ofMinutes(1), Duration.ofMinutes(60));
    assertEquals(Duration.ofMinutes(32), minutes.after(6));
    assertEquals(Duration.ofMinutes(60), minutes.after(7));
    assertEquals(Duration.ofMinutes(60), minutes.after(Integer.MAX_VALUE));
  }

  private static String words(long[] numbers) {
    return String.join(
        " ", Arrays.stream(numbers).mapToObj(String::valueOf).toArray(String[]::new));
  }

  @Test
  void anInterruptionEndsTheWaitAndStays() {
    Thread.currentThread().interrupt();
    new BackOff(Duration.ofDays(1), Duration.ofDays(1)).pause(1);

    assertTrue(Thread.interrupted());
  }
}

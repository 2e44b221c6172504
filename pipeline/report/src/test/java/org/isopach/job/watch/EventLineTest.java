package org.isopach.job.watch;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.isopach.analysis.finding.FindingKind;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class EventLineTest {
  private static final UnitKey UNIT = new UnitKey("TSEU\t1\\n\nä", "2.25.3");
  private static final Path FILE = Path.of("/share/new scans/ä\tb\n%41;?#");

  static Stream<WatchEvent> events() {
    Instant at = Instant.ofEpochSecond(1_780_000_000);
    return Stream.of(
        new WatchEvent.Opened("--job measure"),
        new WatchEvent.Examined(FILE, 12, 34, new FileVerdict.Member("ab", UNIT, true)),
        new WatchEvent.Examined(
            FILE, 1L << 40, -5, new FileVerdict.LeftOut("cd", FindingKind.NOT_DICOM, "it's\ta")),
        new WatchEvent.Examined(
            FILE, 0, 0, new FileVerdict.Waiting(FindingKind.TRUNCATED, "ends early")),
        new WatchEvent.Gone(FILE),
        new WatchEvent.Began(UNIT, "2.25.3", 2, "ef"),
        new WatchEvent.Stopped(UNIT),
        new WatchEvent.Failed(UNIT, "ef", at, at.plusSeconds(60), "no\r\nmemory"),
        new WatchEvent.Ended(UNIT, "2.25.3", 2, "", List.of("ab", "cd"), ""),
        new WatchEvent.Again(UNIT));
  }

  @ParameterizedTest
  @MethodSource("events")
  void everyEventComesBackAsItWas(WatchEvent event) {
    String line = EventLine.of(event);

    assertEquals(1, line.lines().count());
    assertEquals(Optional.of(event), EventLine.read(line));
  }

  @ParameterizedTest
  @MethodSource("events")
  void aLineThatIsNotWholeCountsForNothing(WatchEvent event) {
    String line = EventLine.of(event);
    for (int end = 0; end < line.length(); end++) {
      assertEquals(Optional.empty(), EventLine.read(line.substring(0, end)));
    }
    assertEquals(Optional.empty(), EventLine.read(line + "x"));
  }
}

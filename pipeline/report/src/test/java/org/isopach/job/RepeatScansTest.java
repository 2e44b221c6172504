package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

class RepeatScansTest {
  private static final LocalDateTime DAY = LocalDateTime.of(2026, 2, 3, 9, 0);
  private static final ScanPlan OTHER =
      ScanPlan.raster(new ScanSize(25, 96, 400), 3.87, 6.4, 6.4, 0);

  @Test
  void pairsScansOfOneEyeDayAndPatternInTheOrderOfTime() {
    OctScan nine = scan("a", "P1", Optional.of(DAY), SampleScans.SMALL);
    OctScan ten = scan("b", "P1", Optional.of(DAY.plusHours(1)), SampleScans.SMALL);
    OctScan eleven = scan("c", "P1", Optional.of(DAY.plusHours(2)), SampleScans.SMALL);
    OctScan twelve = scan("d", "P1", Optional.of(DAY.plusHours(3)), SampleScans.SMALL);
    OctScan odd = scan("e", "P1", Optional.of(DAY.plusHours(4)), SampleScans.SMALL);

    assertEquals(
        List.of(new RepeatScans(nine, ten), new RepeatScans(eleven, twelve)),
        RepeatScans.among(List.of(odd, twelve, ten, eleven, nine)));
  }

  @Test
  void leavesOutOtherPatientsDaysPatternsAndUnknownTimes() {
    OctScan one = scan("a", "P1", Optional.of(DAY), SampleScans.SMALL);

    assertEquals(
        List.of(),
        RepeatScans.among(
            List.of(
                one,
                scan("b", "P2", Optional.of(DAY), SampleScans.SMALL),
                scan("c", "P1", Optional.of(DAY.plusDays(1)), SampleScans.SMALL),
                scan("d", "P1", Optional.of(DAY), OTHER),
                scan("e", "P1", Optional.empty(), SampleScans.SMALL),
                scan("f", "P1", Optional.empty(), SampleScans.SMALL),
                SampleScans.withoutLaterality(scan("g", "P1", Optional.of(DAY), SampleScans.SMALL)),
                SampleScans.withoutPath(scan("h", "P1", Optional.of(DAY), SampleScans.SMALL)))));
  }

  private static OctScan scan(
      String name, String patient, Optional<LocalDateTime> time, ScanPlan plan) {
    return SampleScans.withIdentity(
        SampleScans.scan(name, 0, plan),
        new ScanIdentity(patient, "1.2.3", "1.2.3.1", "1.2.3.1." + (int) name.charAt(0), time));
  }
}

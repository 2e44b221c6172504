package org.isopach.report.table;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.scan.ScanIdentity;
import org.junit.jupiter.api.Test;

class RegistrationFileTest {
  private static final LocalDateTime DAY = LocalDateTime.of(2026, 3, 4, 9, 15);
  private static final ScanIdentity BASELINE =
      new ScanIdentity("TSEU-1", "1.2.1", "1.2.1.1", "1.2.1.1.1", Optional.of(DAY));
  private static final ScanIdentity FOLLOW_UP =
      new ScanIdentity("TSEU-1", "1.2.2", "1.2.2.1", "1.2.2.1.1", Optional.of(DAY.plusDays(30)));

  @Test
  void tellsHowVesselsWereMatchedAndWhyNot() {
    LaidScan matched =
        new LaidScan(
            BASELINE,
            FOLLOW_UP,
            Laterality.RIGHT,
            "vessel-shadows",
            Optional.of(
                FundusTransform.of(1.02, -3, new FundusPoint(0, 0), new FundusPoint(0.5, 0.1))),
            Optional.of(new FundusPoint(0.01, -0.02)),
            0.0091,
            Optional.of(new LaidScan.Vessels(0.645, 0.019, 0.93, 0.033)),
            "",
            OptionalDouble.of(-12.345));
    LaidScan missed =
        new LaidScan(
            BASELINE,
            FOLLOW_UP,
            Laterality.LEFT,
            "foveal-pit",
            Optional.empty(),
            Optional.empty(),
            0.031,
            Optional.empty(),
            "the two scans show too little of one place",
            OptionalDouble.empty());

    List<List<String>> rows = RegistrationFile.rows(List.of(missed, matched));

    assertEquals(
        "TSEU-1,1.2.2,1.2.2.1,1.2.2.1.1,2026-04-03T09:15:00,R,1.2.1.1.1,2026-03-04T09:15:00,"
            + "vessel-shadows,1.02000,-3.000,0.0100,-0.0200,0.0091,0.645,0.019,0.930,0.0330,"
            + "-12.35,",
        String.join(",", rows.get(0)));
    assertEquals(
        "foveal-pit,,,,,0.0310,,,,,,the two scans show too little of one place",
        String.join(",", rows.get(1).subList(8, rows.get(1).size())));
    rows.forEach(row -> assertEquals(RegistrationFile.columns().size(), row.size()));
  }
}

package org.isopach.report.table;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.nerve.NerveTrend;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * One value of the nerve over all visits of an eye.
 *
 * @param eye which eye
 * @param role what the scans were taken for
 * @param key which value
 * @param points one for each visit, the earliest first
 * @param trend how it runs; empty for values that have no slope in µm per year
 * @param cautions what must be known beside it to believe it
 */
public record NerveCourse(
    Eye eye,
    String role,
    NerveKey key,
    List<Point> points,
    Optional<NerveTrend> trend,
    List<String> cautions) {

  /**
   * A visit.
   *
   * @param scan the scan that stands for it
   * @param days calendar days since the first visit
   * @param value in the measure's unit; empty when refused
   * @param reason why there is no value; empty when there is one
   */
  public record Point(ScanIdentity scan, long days, OptionalDouble value, String reason) {
    public Point {
      Objects.requireNonNull(scan, "scan");
      Objects.requireNonNull(reason, "reason");
    }
  }

  public NerveCourse {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(role, "role");
    Objects.requireNonNull(key, "key");
    points = List.copyOf(points);
    Objects.requireNonNull(trend, "trend");
    cautions = List.copyOf(cautions);
  }

  /** Returns how it runs in one sentence without a full stop; empty without a trend. */
  public String words() {
    return trend.isEmpty()
        ? ""
        : Stream.concat(Stream.of(trend.get().words()), cautions.stream())
            .collect(Collectors.joining("; "));
  }
}

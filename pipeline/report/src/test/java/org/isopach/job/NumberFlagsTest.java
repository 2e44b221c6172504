package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;
import org.junit.jupiter.api.Test;

/** Which findings stand beside which numbers. */
class NumberFlagsTest {
  private static final double RESOLVED_UM = 7.74;

  private static final NumberFlags FLAGS =
      flags(
          AngleZero.HORIZONTAL,
          FindingKind.LOW_SIGNAL,
          FindingKind.CIRCLE_SHIFTED,
          FindingKind.ATROPHY_BEYOND_CIRCLE,
          FindingKind.DECENTRED,
          FindingKind.LOW_COVERAGE,
          FindingKind.NO_NORMAL_LIMITS);

  @Test
  void atrophyIsSaidOfTheArcsItTouches() {
    // From 330 to 20 degrees: temporal only.
    assertEquals(
        List.of(
            FindingKind.LOW_SIGNAL, FindingKind.CIRCLE_SHIFTED, FindingKind.ATROPHY_BEYOND_CIRCLE),
        said(FLAGS, NerveMeasure.FIBRES, "quadrants", "temporal"));
    assertEquals(
        List.of(FindingKind.LOW_SIGNAL, FindingKind.CIRCLE_SHIFTED),
        said(FLAGS, NerveMeasure.FIBRES, "quadrants", "superior"));
    assertEquals(
        List.of("hour-8", "hour-9", "hour-10"),
        Stream.of("hour-7", "hour-8", "hour-9", "hour-10", "hour-11", "hour-3")
            .filter(
                hour ->
                    said(FLAGS, NerveMeasure.FIBRES, "clock-hours", hour)
                        .contains(FindingKind.ATROPHY_BEYOND_CIRCLE))
            .toList());
  }

  @Test
  void theWholeCircleHoldsTheAtrophy() {
    assertEquals(
        List.of(
            FindingKind.LOW_SIGNAL, FindingKind.CIRCLE_SHIFTED, FindingKind.ATROPHY_BEYOND_CIRCLE),
        said(FLAGS, NerveMeasure.FIBRES, "", "global"));
  }

  @Test
  void whatIsWrongWithTheCircleIsNotWrongWithTheRim() {
    assertEquals(
        List.of(FindingKind.LOW_SIGNAL),
        said(FLAGS, NerveMeasure.RIM_WIDTH, "quadrants", "temporal"));
  }

  @Test
  void whatIsWrongWithTheFoveaIsSaidOfGanglionCells() {
    assertEquals(
        List.of(FindingKind.LOW_SIGNAL, FindingKind.DECENTRED),
        said(FLAGS, NerveMeasure.GANGLION, "", "global"));
  }

  @Test
  void arcsTurnedToTheFoveaAreTouchedWhereTheyThenLie() {
    // The line falls by 40 degrees towards the fovea: the stretch then runs from 10 to 60 degrees.
    NumberFlags turned = flags(AngleZero.foveaDiscLine(40), FindingKind.ATROPHY_BEYOND_CIRCLE);

    assertEquals(
        List.of("temporal", "superior"),
        Stream.of("temporal", "superior", "nasal", "inferior")
            .filter(arc -> !said(turned, NerveMeasure.FIBRES, "quadrants", arc).isEmpty())
            .toList());
  }

  @Test
  void aThicknessOfTwoLinesThatTouchIsDoubtful() {
    NumberFlags flags = flags(AngleZero.HORIZONTAL, FindingKind.LAYER_NOT_RESOLVED);
    NerveValue thin = value(NerveMeasure.GANGLION, "", "global", 7.7);
    NerveValue thick = value(NerveMeasure.GANGLION, "", "global", 7.8);
    NerveValue angle = value(NerveMeasure.FOVEA_DISC_ANGLE, "", "disc", 7);

    assertEquals(List.of(FindingKind.LAYER_NOT_RESOLVED), flags.on(thin).flags());
    assertEquals(List.of(), flags.on(thick).flags());
    assertEquals(List.of(), flags.on(angle).flags());
    Finding said =
        NerveFindings.ofResolution(table(thin, thick), RESOLVED_UM, "scan").orElseThrow();
    assertEquals("thinner than two pixels of depth, 7.74 µm: ganglion global", said.detail());
    assertEquals(
        Optional.empty(), NerveFindings.ofResolution(table(thick, angle), RESOLVED_UM, "scan"));
    assertEquals(20, NerveFindings.resolvedUm(AxialScale.ofMicrometresPerPixel(10)), 1e-9);
  }

  private static NerveTable table(NerveValue... values) {
    return new NerveTable(
        new ScanIdentity("TSEU-1", "2.25.1", "2.25.2", "2.25.3", Optional.empty()),
        Laterality.RIGHT,
        "macula-volume",
        OptionalDouble.empty(),
        AngleZero.HORIZONTAL,
        Optional.empty(),
        "foveal-pit",
        OptionalDouble.empty(),
        List.of(values));
  }

  private static NumberFlags flags(AngleZero zero, FindingKind... kinds) {
    return new NumberFlags(
        Stream.of(kinds).map(kind -> new Finding(kind, "scan", "so it is")).toList(),
        List.of(new CircleStretch(330, 50)),
        zero,
        RESOLVED_UM);
  }

  private static List<FindingKind> said(
      NumberFlags flags, NerveMeasure measure, String scheme, String sector) {
    return flags.on(value(measure, scheme, sector, 90)).flags();
  }

  private static NerveValue value(
      NerveMeasure measure, String scheme, String sector, double number) {
    return new NerveValue(
        measure,
        "",
        scheme,
        sector,
        OptionalDouble.of(number),
        Optional.empty(),
        OptionalDouble.of(1),
        "");
  }
}

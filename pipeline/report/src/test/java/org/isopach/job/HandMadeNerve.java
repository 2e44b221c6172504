package org.isopach.job;

import java.time.LocalDateTime;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.report.table.NerveTable;

/**
 * Circles round the disc of one eye, without a picture behind them.
 *
 * @param diameterMm of the circle
 * @param role what the scan was taken for
 */
record HandMadeNerve(double diameterMm, NerveRole role) {
  static final HandMadeNerve CIRCLE = new HandMadeNerve(3.46, NerveRole.CIRCLE);
  static final Eye EYE = new Eye("TSEU-1", "", Laterality.RIGHT);

  private static final FundusPoint CENTRE = new FundusPoint(4.5, 1.0);
  private static final LocalDateTime START = LocalDateTime.of(2026, 2, 3, 10, 0);

  /** Returns a scan of a visit, its number in the visit given. */
  NerveScan scan(int visit, int number, double[] thicknessUm, Finding... findings) {
    return scan(
        identity(visit, number, Optional.of(START.plusDays(182L * visit).plusMinutes(number))),
        thicknessUm,
        findings);
  }

  /** Returns a scan that does not say when it was made. */
  NerveScan undated(int visit, double[] thicknessUm) {
    return scan(identity(visit, 0, Optional.empty()), thicknessUm);
  }

  /** Returns a scan in a frame of reference that all such scans share, moved upwards. */
  NerveScan movedUp(double mm, int visit, int number, double[] thicknessUm) {
    ScanPath path =
        ScanPath.ofLines(
            List.of(new FundusPoint(0, 0)),
            List.of(new FundusPoint(1, 0)),
            768,
            new FundusFrame(FundusFrame.Kind.PATIENT, "2.25.80"));
    return scan(
        identity(visit, number, Optional.of(START.plusDays(182L * visit).plusMinutes(number))),
        Optional.of(path),
        CENTRE.plus(new FundusPoint(0, -mm)),
        thicknessUm);
  }

  private static ScanIdentity identity(int visit, int number, Optional<LocalDateTime> time) {
    return new ScanIdentity(
        EYE.patientId(), "2.25." + visit, "2.25." + visit + ".1", sopUid(visit, number), time);
  }

  static String sopUid(int visit, int number) {
    return "2.25." + visit + ".1." + number;
  }

  private NerveScan scan(ScanIdentity identity, double[] thicknessUm, Finding... findings) {
    return scan(identity, Optional.empty(), CENTRE, thicknessUm, findings);
  }

  private NerveScan scan(
      ScanIdentity identity,
      Optional<ScanPath> path,
      FundusPoint centre,
      double[] thicknessUm,
      Finding... findings) {
    CircleProfile profile =
        new CircleProfile(
            identity,
            Laterality.RIGHT,
            CircleSight.FIBRES,
            diameterMm,
            centre,
            role == NerveRole.CIRCLE ? ProfileSource.CIRCLE_SCAN : ProfileSource.RESAMPLED,
            AngleZero.HORIZONTAL,
            thicknessUm);
    CircleSight sight =
        new CircleSight(
            profile, Collections.nCopies(thicknessUm.length, 0.9), List.of(), List.of());
    NerveSighting sighting =
        new NerveSighting(
            oct(identity, path),
            1,
            Optional.empty(),
            Optional.of(sight),
            Optional.empty(),
            Optional.empty(),
            List.of(),
            new NerveSighting.Seen(Optional.empty(), Optional.empty()),
            List.of(),
            new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty()),
            0,
            0);
    NerveTable table =
        new NerveTable(
            identity,
            Laterality.RIGHT,
            role.code(),
            OptionalDouble.of(diameterMm),
            AngleZero.HORIZONTAL,
            Optional.of(profile.centre()),
            "circle",
            OptionalDouble.empty(),
            NerveValues.fibres(profile));
    return new NerveScan(
        sighting,
        AngleZero.HORIZONTAL,
        Optional.of(profile),
        List.of(table),
        NormalEye.UNKNOWN,
        List.of(),
        List.of(findings));
  }

  private static OctScan oct(ScanIdentity identity, Optional<ScanPath> path) {
    return new OctScan(
        identity,
        new SourceDocument("scan " + identity.sopUid(), "00"),
        Optional.of(Laterality.RIGHT),
        new ScanSize(1, 768, 496),
        AxialScale.ofMicrometresPerPixel(3.87),
        path,
        Optional.empty(),
        Optional.empty(),
        new GreyRange(0, 255),
        (frame, into) -> Arrays.fill(into, 0));
  }

  /** Returns a profile of two humps, in µm, with noise of its own. */
  static double[] humps(long seed, double changeUm) {
    Random random = new Random(seed);
    double[] values = new double[CircleProfile.SAMPLES];
    double shared = random.nextGaussian();
    double local = 0;
    for (int i = 0; i < values.length; i++) {
      double angle = 2 * Math.PI * i / values.length;
      local = 0.95 * local + random.nextGaussian();
      values[i] = 95 - 40 * Math.cos(2 * angle) + changeUm + shared + local;
    }
    return values;
  }

  /** Returns a profile of which only a part has values. */
  static double[] part(double[] values, double fromDegrees, double toDegrees) {
    double[] some = new double[values.length];
    Arrays.fill(some, Double.NaN);
    for (int i = 0; i < some.length; i++) {
      double degrees = 360.0 * i / some.length;
      if (degrees >= fromDegrees && degrees < toDegrees) {
        some[i] = values[i];
      }
    }
    return some;
  }

  static Finding finding(FindingKind kind, String detail) {
    return new Finding(kind, "scan", detail);
  }

  static NerveBook book(NerveScan... scans) {
    NerveBook book = new NerveBook();
    for (NerveScan scan : scans) {
      book.add(EYE, scan);
    }
    return book;
  }
}

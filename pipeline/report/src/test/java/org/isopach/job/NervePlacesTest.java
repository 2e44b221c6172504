package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.HeightMap;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.analysis.nerve.RimMeter;
import org.isopach.analysis.nerve.RimProfile;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;
import org.junit.jupiter.api.Test;

/** Which other scans tell where a circle lies. */
class NervePlacesTest {
  private static final FundusPoint DISC = new FundusPoint(4.5, 1.0);
  private static final String HERE = "2.25.500";
  private static final String ELSEWHERE = "2.25.501";

  private static final NerveSighting CIRCLE = circle("a", HERE, 0, List.of());

  @Test
  void aloneNothingTells() {
    CircleWitness witness = new NervePlaces(List.of(CIRCLE)).witness(CIRCLE);

    assertEquals(new CircleWitness(Optional.empty(), OptionalDouble.empty()), witness);
  }

  @Test
  void volumeOfAnotherVisitTellsInTheSameFrame() {
    NerveSighting volume = volume("v", HERE);

    CircleWitness witness =
        new NervePlaces(List.of(CIRCLE), List.of(CIRCLE, volume)).witness(CIRCLE);

    assertEquals(volume.disc().map(DiscSight::opening), witness.opening());
  }

  @Test
  void volumeCountedFromElsewhereTellsNothing() {
    NerveSighting volume = volume("v", ELSEWHERE);

    List<NerveSighting> all = List.of(CIRCLE, volume);

    assertEquals(Optional.empty(), new NervePlaces(all).witness(CIRCLE).opening());
  }

  @Test
  void circleFarthestAwayTells() {
    NerveSighting near = circle("b", HERE, 0.1, List.of());
    NerveSighting far = circle("c", HERE, 0.4, List.of());
    NerveSighting elsewhere = circle("d", ELSEWHERE, 0.9, List.of());
    NerveSighting inDisc = circle("e", HERE, 1.3, List.of(new CircleStretch(0, 40)));

    CircleWitness witness =
        new NervePlaces(List.of(CIRCLE), List.of(CIRCLE, near, far, elsewhere, inDisc))
            .witness(CIRCLE);

    assertTrue(witness.opening().isEmpty());
    assertEquals(0.4, witness.otherCircleMm().orElseThrow(), 1e-9);
  }

  private static NerveSighting circle(
      String name, String frame, double awayMm, List<CircleStretch> inDisc) {
    double[] values = new double[CircleProfile.SAMPLES];
    Arrays.fill(values, 95);
    OctScan scan = scan(name, frame);
    CircleProfile profile =
        new CircleProfile(
            scan.identity(),
            Laterality.RIGHT,
            CircleSight.FIBRES,
            3.46,
            DISC.plus(new FundusPoint(0, awayMm)),
            ProfileSource.CIRCLE_SCAN,
            AngleZero.HORIZONTAL,
            values);
    return sighting(
        scan,
        Optional.of(
            new CircleSight(profile, Collections.nCopies(values.length, 0.9), List.of(), inDisc)),
        Optional.empty());
  }

  private static NerveSighting volume(String name, String frame) {
    double[] radii = new double[DiscOpening.SAMPLES];
    boolean[] seen = new boolean[radii.length];
    Arrays.fill(radii, 0.8);
    Arrays.fill(seen, true);
    DiscOpening opening =
        DiscOpening.of(DISC, Laterality.RIGHT, radii, new double[radii.length], seen);
    MapLattice lattice = MapLattice.centred(2, 0.1);
    HeightMap flat = new HeightMap(lattice, DISC, new float[lattice.rows() * lattice.columns()]);
    RimProfile rim = RimMeter.measure(opening, flat);
    return sighting(
        scan(name, frame),
        Optional.empty(),
        Optional.of(new DiscSight(opening, rim, Optional.empty())));
  }

  private static NerveSighting sighting(
      OctScan scan, Optional<CircleSight> circle, Optional<DiscSight> disc) {
    return new NerveSighting(
        scan,
        1,
        Optional.empty(),
        circle,
        disc,
        Optional.empty(),
        List.of(),
        new NerveSighting.Seen(Optional.empty(), Optional.empty()),
        List.of(),
        new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty()),
        0,
        0);
  }

  private static OctScan scan(String name, String frame) {
    ScanPath path =
        ScanPath.ofLines(
            List.of(new FundusPoint(0, 0)),
            List.of(new FundusPoint(1, 0)),
            8,
            new FundusFrame(FundusFrame.Kind.PATIENT, frame));
    return new OctScan(
        new ScanIdentity("TSEU-1", "2.25.1", "2.25.2", name, Optional.empty()),
        new SourceDocument(name, "00"),
        Optional.of(Laterality.RIGHT),
        new ScanSize(1, 8, 496),
        AxialScale.ofMicrometresPerPixel(3.87),
        Optional.of(path),
        Optional.empty(),
        Optional.empty(),
        new GreyRange(0, 255),
        (at, into) -> Arrays.fill(into, 0));
  }
}

package org.isopach.report.picture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.Arc;
import org.isopach.analysis.nerve.ArcMean;
import org.isopach.analysis.nerve.ArcMissing;
import org.isopach.analysis.nerve.ArcResult;
import org.isopach.analysis.nerve.ArcTable;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.analysis.nerve.DiscOpening;

/**
 * The picture of the nerve fibre layer round the disc: colours and lines of equal thickness as on
 * every map, the opening of Bruch's membrane, the circle that was measured along, cut into its
 * arcs.
 */
public final class DiscPicture {
  private static final double TICK_MM = 0.14;
  private static final int CIRCLE_STEPS = 240;

  private DiscPicture() {}

  /**
   * Draws a map and writes it as PNG.
   *
   * @param map thickness in µm round the opening's centre
   * @param arcs of the circle laid into it
   * @param opening its centre is the map's
   * @param software name and version of the program, for the foot of the sheet
   * @return the SHA-256 digest of the file
   */
  public static String write(
      Path target, ThicknessMap map, ArcTable arcs, DiscOpening opening, String software)
      throws IOException {
    return PngFile.write(target, SheetPainter.paint(sheet(map, arcs, opening, software)));
  }

  static Sheet sheet(ThicknessMap map, ArcTable arcs, DiscOpening opening, String software) {
    return new Sheet(
        "Nerve fibre layer round the disc, " + PictureWords.layerTitle(map.layer()),
        "Inner limiting membrane to ganglion cell layer, along the A-scan",
        map.laterality(),
        ValueField.of(map.lattice(), map::micrometres),
        ValueScale.ofThickness(map.layer()),
        ColourRamp.THICKNESS,
        lines(arcs, opening),
        List.of(),
        new Sheet.Headings("SD", "covered"),
        rows(arcs),
        facts(map, arcs, opening),
        notes(arcs, opening),
        List.of("Object " + map.scan().sopUid(), PictureWords.imprint(software)));
  }

  private static List<SheetLine> lines(ArcTable arcs, DiscOpening opening) {
    List<SheetLine> lines = new ArrayList<>();
    CircleProfile profile = arcs.profile();
    FundusPoint middle = new FundusPoint(0, 0);
    double radius = profile.diameterMm() / 2;
    List<FundusPoint> circle = new ArrayList<>();
    for (int i = 0; i <= CIRCLE_STEPS; i++) {
      double angle = i * DiscAngle.FULL_TURN / CIRCLE_STEPS;
      circle.add(DiscAngle.place(middle, radius, angle, profile.laterality()));
    }
    lines.add(new MapCurve(circle, true, false));
    for (Arc arc : arcs.scheme().arcs()) {
      double angle = profile.zero().toHorizontal(arc.fromDegrees());
      FundusPoint in = DiscAngle.place(middle, radius - TICK_MM, angle, profile.laterality());
      FundusPoint out = DiscAngle.place(middle, radius + TICK_MM, angle, profile.laterality());
      lines.add(new MapCurve(List.of(in, out), true, false));
    }
    lines.addAll(contour(opening));
    return lines;
  }

  /** The opening, sample to sample; dashed where either end was not seen. */
  private static List<SheetLine> contour(DiscOpening opening) {
    List<SheetLine> lines = new ArrayList<>();
    int n = opening.samples();
    List<FundusPoint> run = new ArrayList<>(List.of(place(opening, 0)));
    boolean solid = opening.seen(0) && opening.seen(1);
    for (int i = 0; i < n; i++) {
      boolean here = opening.seen(i) && opening.seen((i + 1) % n);
      if (here != solid) {
        lines.add(new MapCurve(run, solid, true));
        run = new ArrayList<>(List.of(place(opening, i)));
        solid = here;
      }
      run.add(place(opening, (i + 1) % n));
    }
    lines.add(new MapCurve(run, solid, true));
    return lines;
  }

  private static FundusPoint place(DiscOpening opening, int sample) {
    return DiscAngle.place(
        new FundusPoint(0, 0),
        opening.radiusMm(sample),
        opening.angleDegrees(sample),
        opening.laterality());
  }

  private static List<Sheet.Row> rows(ArcTable arcs) {
    List<Sheet.Row> rows = new ArrayList<>();
    arcs.arcs().forEach(result -> rows.add(row(result)));
    rows.add(row(arcs.global()));
    return rows;
  }

  private static Sheet.Row row(ArcResult result) {
    Optional<ArcMean> mean =
        result instanceof ArcMean measured ? Optional.of(measured) : Optional.empty();
    return new Sheet.Row(
        result.arc(),
        mean.map(one -> PictureWords.fixed(one.meanUm(), 1)),
        mean.map(one -> PictureWords.fixed(one.sdUm(), 1)).orElse(""),
        PictureWords.percent(result.coveredFraction()));
  }

  private static List<Sheet.Fact> facts(ThicknessMap map, ArcTable arcs, DiscOpening opening) {
    return List.of(
        new Sheet.Fact("patient", PictureWords.patient(map.scan().patientId())),
        new Sheet.Fact("acquired", PictureWords.dateTime(map.scan().acquired())),
        new Sheet.Fact(
            "circle", PictureWords.fixed(arcs.profile().diameterMm(), 2) + " mm in diameter"),
        new Sheet.Fact("centre", PictureWords.centre(map.centre())),
        new Sheet.Fact(
            "opening",
            PictureWords.fixed(opening.areaMm2(), 2)
                + " mm\u00B2, "
                + PictureWords.percent(opening.seenFraction())
                + " of it seen"),
        new Sheet.Fact(
            "angles",
            switch (arcs.profile().zero().kind()) {
              case HORIZONTAL -> "from the horizontal";
              case FOVEA_DISC_LINE -> "from the line between disc and fovea";
            }));
  }

  private static List<String> notes(ArcTable arcs, DiscOpening opening) {
    List<String> notes = new ArrayList<>();
    notes.add(
        "Numbers are means along the circle, of a quadrant each. Heavy line: opening of Bruch\u2019s"
            + " membrane"
            + (opening.seenFraction() < 1 ? "; dashed where it was not seen." : "."));
    for (ArcResult result : arcs.arcs()) {
      if (result instanceof ArcMissing missing) {
        notes.add(PictureWords.refusal(missing.arc(), missing.detail()));
      }
    }
    return notes;
  }
}

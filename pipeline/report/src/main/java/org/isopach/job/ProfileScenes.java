package org.isopach.job;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.nerve.Arc;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.report.plot.ProfileScene;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Sets up the plots of nerve fibre profiles. */
final class ProfileScenes {
  private static final double LOW_PERCENT = 2.5;
  private static final double HIGH_PERCENT = 97.5;

  private ProfileScenes() {}

  /** Returns the scene of a scan with a profile. */
  static ProfileScene of(NerveBook.Entry one, NerveBook book) {
    CircleProfile profile = one.scan().profile().orElseThrow();
    return new ProfileScene(
        "Patient "
            + (one.eye().patientId().isEmpty() ? "without identifier" : one.eye().patientId())
            + ", "
            + one.eye().laterality().word()
            + " eye, "
            + date(one)
            + ": nerve fibre layer on a circle of "
            + String.format(Locale.ROOT, "%.2f mm", profile.diameterMm()),
        profile,
        book.earlier(one).stream().map(other -> line("visit of " + date(other), other)).toList(),
        book.otherEye(one)
            .map(
                other ->
                    line(
                        other.eye().laterality().word() + " eye, mirrored, " + date(other), other)),
        bands(one.scan()),
        bandWords(one.scan()),
        notes(one.scan(), profile));
  }

  private static String date(NerveBook.Entry entry) {
    return entry.day().map(LocalDate::toString).orElse("date not stated");
  }

  private static ProfileScene.Line line(String words, NerveBook.Entry entry) {
    return new ProfileScene.Line(words, entry.scan().profile().orElseThrow());
  }

  private static List<ProfileScene.Band> bands(NerveScan scan) {
    List<ProfileScene.Band> bands = new ArrayList<>();
    for (int i = 0; i < scan.limits().size(); i++) {
      Arc arc = ArcSchemes.QUADRANTS.arcs().get(i);
      scan.limits()
          .get(i)
          .ifPresent(
              limits ->
                  bands.add(
                      new ProfileScene.Band(
                          arc.fromDegrees(),
                          arc.widthDegrees(),
                          limits.umAt(LOW_PERCENT),
                          limits.umAt(HIGH_PERCENT))));
    }
    return bands;
  }

  /** Each quadrant may have a group of its own. */
  private static String bandWords(NerveScan scan) {
    String groups =
        scan.limits().stream()
            .flatMap(Optional::stream)
            .map(limits -> limits.row().source().referenceId() + ", N = " + limits.row().n())
            .collect(Collectors.toCollection(TreeSet::new))
            .stream()
            .collect(Collectors.joining("; "));
    return groups.isEmpty() ? "" : "quadrant means, 95 % of " + groups;
  }

  private static List<String> notes(NerveScan scan, CircleProfile profile) {
    List<String> notes = new ArrayList<>();
    NerveTable table = scan.tables().get(0);
    String global =
        table
            .value(NerveMeasure.FIBRES, "", "global")
            .map(ProfileScenes::inWords)
            .orElse("not measurable");
    notes.add(
        (profile.source() == ProfileSource.CIRCLE_SCAN
                ? "Circle scan. "
                : "Circle laid into a volume round the centre of the disc's opening. ")
            + "Mean of the circle: "
            + global
            + ".");
    Optional<String> cautions = cautions(scan);
    if (scan.limits().stream().anyMatch(Optional::isPresent)) {
      notes.add(
          "Hatched: where the mean of a quadrant lies in 95 % of the group (mean \u00B1 1.96 SD)."
              + " It is no range for single angles of the profile.");
      cautions.ifPresent(notes::add);
    } else {
      notes.add("No normal limits: " + why(table));
    }
    look(scan, cautions.orElse("")).ifPresent(notes::add);
    return notes;
  }

  /** What was found of the circle, but for what is said already. */
  private static Optional<String> look(NerveScan scan, String said) {
    String flags =
        scan.findings().stream()
            .filter(
                finding ->
                    switch (finding.kind()) {
                      case CIRCLE_OFF_DISC,
                          CIRCLE_SHIFTED,
                          CIRCLES_APART,
                          CIRCLE_NOT_CHECKED,
                          ATROPHY_BEYOND_CIRCLE,
                          DIAMETER_UNUSUAL ->
                          true;
                      default -> false;
                    })
            .map(Finding::detail)
            .filter(detail -> !said.contains(detail))
            .collect(Collectors.joining("; "));
    return flags.isEmpty() ? Optional.empty() : Optional.of("Look: " + flags + ".");
  }

  private static String inWords(NerveValue value) {
    return value.value().isPresent()
        ? String.format(Locale.ROOT, "%.1f \u00B5m", value.value().getAsDouble())
        : "not measurable, " + value.reason();
  }

  /** The hatching is of quadrants, so that theirs is the reason. */
  private static String why(NerveTable table) {
    return table.values().stream()
        .filter(value -> value.measure() == NerveMeasure.FIBRES)
        .filter(value -> value.scheme().equals(ArcSchemes.QUADRANTS.name()))
        .flatMap(value -> value.place().stream())
        .findFirst()
        .map(place -> place.words().replaceFirst("^no normal limits: ", "") + ".")
        .orElse("none asked for.");
  }

  /** What goes with the reference's numbers wherever they are shown. */
  private static Optional<String> cautions(NerveScan scan) {
    String words =
        scan.limits().stream()
            .flatMap(Optional::stream)
            .flatMap(limits -> limits.notes().stream())
            .distinct()
            .collect(Collectors.joining("; "));
    return words.isEmpty() ? Optional.empty() : Optional.of("Of the group: " + words + ".");
  }
}

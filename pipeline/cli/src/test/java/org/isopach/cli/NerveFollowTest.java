package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.NervePlans;
import org.isopach.fixtures.dicom.NerveStudy;
import org.isopach.fixtures.dicom.ObjectContext;
import org.isopach.fixtures.dicom.PhantomObjects;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What compare and series say of the nerve, on circles of both eyes at three visits. */
class NerveFollowTest {
  private static final List<String> DIAGNOSES =
      List.of("glaucom", "diagnosed", "disease", "progress", "abnormal", "healthy eye");

  private static final String OFF_DISC = "2.25.77003";

  /** Three numbers of one decimal, each rounded by itself. */
  private static final double ROUNDED = 0.1501;

  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path circles;
  private static Path disc;

  @BeforeAll
  static void writeStudy() throws IOException {
    circles = shared.resolve("circles");
    disc = shared.resolve("disc");
    NervePlans plans =
        new NervePlans(
            ScanPlan.nerveCircle(),
            ScanPlan.radial(new ScanSize(12, 384, 496), 3.87, 6),
            NervePlans.small().raster(),
            NervePlans.small().macula());
    int number = 0;
    PhantomScan last = null;
    for (PhantomScan scan : new NerveStudy(plans, 3).scans()) {
      ScanPattern pattern = scan.scan().path().map(ScanPath::pattern).orElseThrow();
      boolean right = scan.scan().laterality().equals(Optional.of(Laterality.RIGHT));
      if (pattern == ScanPattern.CIRCLE) {
        write(circles.resolve("c" + number++), scan);
        last = right ? last : scan;
      } else if (pattern == ScanPattern.RADIAL && right) {
        write(disc, scan);
      }
    }
    write(circles.resolve("off"), offDisc(last));
  }

  /** A fourth visit of the left eye, whose circle was laid 1.3 mm beside the disc. */
  private static PhantomScan offDisc(PhantomScan last) {
    ScanIdentity identity = last.scan().identity();
    return PhantomScan.of(last.parameters().onDisc(1.0, -0.8), ScanPlan.nerveCircle())
        .withIdentity(
            new ScanIdentity(
                identity.patientId(),
                "2.25.77001",
                "2.25.77002",
                OFF_DISC,
                identity.acquired().map(time -> time.plusDays(182))));
  }

  private static void write(Path place, PhantomScan scan) throws IOException {
    ObjectContext context =
        new ObjectContext(
            "Saltmarsh^Ines",
            Optional.of(LocalDate.of(1961, 5, 23)),
            "F",
            new ObjectContext.Study(
                "NH022", "TSEU24", "Optic nerve", scan.scan().identity().acquired().orElseThrow()),
            Optional.empty(),
            new ObjectContext.Instrument(
                "Tern Sound Instruments", "Skerry 2", "SK2-0042", "phantom", "Tern Sound Eye Unit"),
            "Made by a program; shows no person");
    Files.createDirectories(place);
    PhantomObjects.writePair(place, "tomography.dcm", "fundus.dcm", scan, context);
  }

  @Test
  void judgesWhatChangedAndWhere() throws IOException {
    Path run = folder.resolve("run");

    Call call =
        Call.isopach(
            "compare",
            circles,
            disc,
            "--out",
            run,
            "--skip",
            "objects,boundaries,pictures,reports");

    // The circle off the disc is a gap; the volume of the disc is none.
    assertEquals(3, call.code(), call.err());
    assertTrue(call.err().contains("measured as a scan of the nerve"), call.err());
    assertTrue(call.out().contains(Cautions.LINE));
    assertEquals(0, Folders.rows(run.resolve("sectors.csv")).size(), "no macula was scanned");
    List<List<String>> rows = Folders.rows(run.resolve("nerve-change.csv"));
    List<List<String>> right = circle(rows, "R", "2025-01-08");
    List<List<String>> left = circle(rows, "L", "2025-01-08");
    // 2 visits after the baseline: global, 4 quadrants, 12 hours, two schemes of 6.
    assertEquals(29, right.stream().filter(row -> row.get(4).equals("rnfl")).count());
    List<String> global =
        right.stream().filter(row -> row.get(7).equals("global")).findFirst().orElseThrow();
    assertEquals("um", global.get(8));
    assertEquals("364", global.get(13));
    double change = Double.parseDouble(global.get(16));
    assertEquals(
        change, Double.parseDouble(global.get(15)) - Double.parseDouble(global.get(14)), ROUNDED);
    assertTrue(
        Double.parseDouble(global.get(17)) < change && change < Double.parseDouble(global.get(18)));
    assertEquals("within", left.get(0).get(22), left.get(0).toString());
    assertTrue(
        right.stream()
            .filter(row -> row.get(4).equals("rnfl-defect"))
            .anyMatch(row -> !row.get(16).isEmpty()),
        "the wedge that deepens is found");
    saysNothingOfDisease(run.resolve("nerve-change.csv"), call.out());
    assertTrue(call.err().contains("the circle runs into the disc"), call.err());
    assertTrue(
        Folders.rows(run.resolve("nerve.csv")).stream().anyMatch(row -> row.contains(OFF_DISC)),
        "a circle off the disc keeps its rows");
    assertTrue(
        rows.stream().noneMatch(row -> row.contains(OFF_DISC)), "but is compared with nothing");
    assertTrue(call.out().contains("tables of the profile's change, angle by angle"), call.out());
    saysOfEachAngle(run, global);
  }

  @Test
  void volumeOfTheDiscIsNoGapWhereTheNerveIsFollowed() throws IOException {
    for (String command : List.of("compare", "series")) {
      Path run = folder.resolve(command);
      Call call =
          Call.isopach(
              command, disc, "--out", run, "--skip", "objects,boundaries,pictures,reports");

      assertEquals(0, call.code(), command + ": " + call.err());
      assertTrue(call.err().contains("measured as a scan of the nerve"), call.err());
      assertTrue(Files.readString(run.resolve("quality.csv")).contains("nerve-volume"), command);
      assertTrue(
          Folders.rows(run.resolve("nerve.csv")).stream()
              .anyMatch(row -> row.get(7).equals("rim-width") && row.get(23).equals("true")),
          command);
    }
    Call measure =
        Call.isopach(
            "measure", disc, "--out", folder.resolve("m"), "--skip", "boundaries,pictures,reports");
    assertEquals(3, measure.code(), measure.err());
    assertTrue(measure.err().contains("'isopach nerve' measures the disc"), measure.err());
  }

  @Test
  void inspectSaysThatCirclesAreMeasured() throws IOException {
    Call inspect = Call.isopach("inspect", circles);
    assertEquals(0, inspect.code(), inspect.out());
    assertTrue(inspect.out().contains("nerve fibre profile"), inspect.out());
    assertFalse(inspect.out().contains("boundaries only"), inspect.out());
    assertTrue(Call.isopach("inspect", disc).out().contains("the optic disc if it is in view"));
  }

  /** The noise of single angles comes from the four pairs of repeats. */
  private static void saysOfEachAngle(Path run, List<String> global) throws IOException {
    List<List<String>> angles =
        Folders.rows(run.resolve("profile-change").resolve(global.get(11) + ".csv"));
    assertEquals(768, angles.size());
    double sum = 0;
    int n = 0;
    for (List<String> angle : angles) {
      if (!angle.get(3).isEmpty()) {
        double change = Double.parseDouble(angle.get(3));
        double from = Double.parseDouble(angle.get(1));
        assertEquals(Double.parseDouble(angle.get(2)) - from, change, ROUNDED);
        sum += change;
        n++;
      }
    }
    assertTrue(n > 700, "angles with a value at both visits: " + n);
    // The mean over the angles is the change of the whole, but for angles without a value.
    assertEquals(Double.parseDouble(global.get(16)), sum / n, 0.5);
    assertTrue(
        angles.stream().anyMatch(angle -> angle.get(5).equals("thinner")), "the wedge deepens");
  }

  @Test
  void saysHowFastItThinsAndWhetherTheVisitsAreEnough() throws IOException {
    Path run = folder.resolve("run");

    Call call =
        Call.isopach("series", circles, "--out", run, "--skip", "objects,boundaries,reports");

    assertTrue(Files.exists(run.resolve("nerve-series.csv")), call.err());
    // The circle off the disc is named; it is the only one that is not followed.
    assertEquals(3, call.code(), call.err());
    List<List<String>> trend = Folders.rows(run.resolve("nerve-trend.csv"));
    List<String> global =
        trend.stream()
            .filter(row -> row.get(2).equals("L") && row.get(7).equals("global"))
            .findFirst()
            .orElseThrow();
    assertEquals("3", global.get(9));
    double slope = Double.parseDouble(global.get(11));
    assertTrue(
        Double.parseDouble(global.get(12)) < slope && slope < Double.parseDouble(global.get(13)));
    // Elderly eyes lose 0.497 um per year (PMC5844564): the eye is 63 years old.
    assertEquals(-0.497, Double.parseDouble(global.get(19)), 1e-9);
    assertEquals(slope + 0.497, Double.parseDouble(global.get(20)), 0.0101);
    assertTrue(call.out().contains("too few visits to say"), call.out());
    assertTrue(call.out().contains("not checked at 3 of 3 visits"), call.out());
    allowsForTheNumberOfPlaces(run.resolve("nerve-trend.csv"));
    assertTrue(call.out().contains("needs"), "how many visits it takes");
    // Three visits, two of them with a repeat, of either eye: the first of each visit counts.
    List<List<String>> points =
        Folders.rows(run.resolve("nerve-series.csv")).stream()
            .filter(row -> row.get(7).equals("global"))
            .toList();
    assertEquals(6, points.size());
    List<List<String>> slopes;
    try (Stream<Path> files = Files.list(run.resolve("profile-trend"))) {
      slopes = Folders.rows(files.sorted().findFirst().orElseThrow());
    }
    assertTrue(call.out().contains("tables of the profile's slopes, angle by angle"), call.out());
    assertEquals(768, slopes.size());
    int fitted = 0;
    for (List<String> angle : slopes) {
      if (!angle.get(1).isEmpty()) {
        double at = Double.parseDouble(angle.get(1));
        assertTrue(Double.parseDouble(angle.get(2)) <= at);
        assertTrue(at <= Double.parseDouble(angle.get(3)));
        fitted++;
      }
    }
    assertTrue(fitted > 700, "angles with a slope: " + fitted);
    saysNothingOfDisease(run.resolve("nerve-trend.csv"), call.out());
    String svg = Files.readString(run.resolve("profile").resolve(points.get(2).get(12) + ".svg"));
    assertTrue(svg.contains("visit of 2024-01-10"), "earlier visits as lines");
    assertTrue(svg.contains("left eye, mirrored"), "the other eye");
  }

  /** A whole is a family of its own, the arcs of a scheme are one. */
  private static void allowsForTheNumberOfPlaces(Path table) throws IOException {
    Pattern judged = Pattern.compile(",([01]\\.[0-9]{6}),(thinner|thicker|within),");
    int arcs = 0;
    for (String line : Files.readAllLines(table)) {
      List<String> row = List.of(line.split(",", -1));
      Matcher found = judged.matcher(line);
      if (!row.get(4).equals("rnfl") || !found.find()) {
        continue;
      }
      double p = Double.parseDouble(row.get(14));
      double adjusted = Double.parseDouble(found.group(1));
      boolean whole = row.get(6).isEmpty();
      assertTrue(whole ? adjusted == p : adjusted >= p, line);
      assertEquals(adjusted > 0.05, found.group(2).equals("within"), line);
      arcs += !whole && adjusted > p ? 1 : 0;
    }
    assertTrue(arcs > 20, "arcs judged together: " + arcs);
  }

  private static List<List<String>> circle(List<List<String>> rows, String eye, String day) {
    return rows.stream()
        .filter(row -> row.get(2).equals(eye) && row.get(3).equals("circle"))
        .filter(row -> row.get(12).startsWith(day))
        .toList();
  }

  private static void saysNothingOfDisease(Path table, String printed) throws IOException {
    for (String word : DIAGNOSES) {
      assertFalse(printed.toLowerCase(Locale.ROOT).contains(word), word);
    }
    List<String> lines = Files.readAllLines(table);
    assertTrue(lines.stream().noneMatch(line -> line.toLowerCase(Locale.ROOT).contains("glaucom")));
  }
}

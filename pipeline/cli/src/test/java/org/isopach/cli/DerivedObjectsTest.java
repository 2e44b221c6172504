package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.FloatBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.SurfaceCode;
import org.isopach.dicom.read.HeightMap;
import org.isopach.dicom.read.HeightMapReader;
import org.isopach.dicom.read.MacularGridReport;
import org.isopach.dicom.read.MacularGridReportReader;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The objects of a whole run say what its tables say. */
class DerivedObjectsTest {
  /** The step of our maps, docs/measurements.md. */
  private static final double LATTICE_MM = 0.02;

  @TempDir static Path shared;

  private static Path run;

  @BeforeAll
  static void measureOnce() throws IOException {
    Path study = shared.resolve("study");
    new PhantomStudy(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(study);
    run = shared.resolve("run");
    Call call = Call.isopach("compare", study, "--out", run, "--skip", "pictures");
    assertEquals(0, call.code(), call.err());
  }

  private static Map<String, Path> objects(String ending) throws IOException {
    Map<String, Path> objects = new TreeMap<>();
    for (Path file : Folders.files(run.resolve("objects"))) {
      String name = file.getFileName().toString();
      if (name.endsWith(ending)) {
        objects.put(name.substring(0, name.length() - ending.length()), file);
      }
    }
    return objects;
  }

  @Test
  void reportsHaveTheNumbersOfTheTableOfSectors() throws Exception {
    Map<String, List<List<String>>> rows =
        Folders.rows(run.resolve("sectors.csv")).stream()
            .filter(row -> row.get(6).equals("ILM-RPE"))
            .collect(Collectors.groupingBy(row -> row.get(3)));
    Map<String, Path> reports = objects("_grid-report.dcm");
    assertEquals(rows.keySet(), reports.keySet());
    assertEquals(4, reports.size());
    for (Map.Entry<String, Path> report : reports.entrySet()) {
      MacularGridReport eye = MacularGridReportReader.read(report.getValue()).get(0);
      for (List<String> row : rows.get(report.getKey())) {
        assertEquals(row.get(5), eye.laterality().code());
        String number = row.get(8).equals("total") ? row.get(15) : row.get(9);
        assertEquals(Double.parseDouble(number), eye.values().get(row.get(8)), row.toString());
        assertEquals(Double.parseDouble(row.get(21)), eye.values().get("centre-point"));
      }
    }
  }

  /** The table has three decimals of a pixel; the object counts from half a pixel further up. */
  @Test
  void heightMapsHaveTheDepthsOfTheTableOfBoundaries() throws Exception {
    Map.Entry<String, Path> object = objects("_height-maps.dcm").entrySet().iterator().next();
    Map<String, HeightMap> surfaces = new TreeMap<>();
    for (HeightMap map : HeightMapReader.read(object.getValue())) {
      surfaces.put(SurfaceCode.boundary(map.surface()).orElseThrow().code(), map);
    }
    Path table = run.resolve("boundaries").resolve(object.getKey() + ".csv");
    List<List<String>> rows = Folders.rows(table);
    assertEquals(19 * 96 * surfaces.size(), rows.size());
    for (List<String> row : rows) {
      float depth =
          surfaces
              .get(row.get(2))
              .rowsFromTop(Integer.parseInt(row.get(0)), Integer.parseInt(row.get(1)));
      if (row.get(3).isEmpty()) {
        assertTrue(Float.isNaN(depth), row.toString());
      } else {
        assertEquals(Double.parseDouble(row.get(3)) + 0.5, depth, 0.00055, row.toString());
      }
    }
  }

  @Test
  void everyObjectPassesOurChecker() throws Exception {
    assertEquals(4, objects("_height-maps.dcm").size());
    for (Path file : written()) {
      assertEquals(List.of(), FileChecker.standard().check(file).violations(), file.toString());
    }
  }

  /** dciodvfy judges the classes that it knows; of the others it says so and nothing else. */
  @Test
  void everyObjectPassesTheOutsideValidator() throws Exception {
    int known = 0;
    for (Path file : written()) {
      String output = Tool.run("dciodvfy", file.toString());
      String sopClass = attributes(file).text(Tags.SOP_CLASS_UID).orElseThrow();
      assertEquals(
          List.of(), KnownValidatorLimits.unexcused(sopClass, output), file + ": " + output);
      known += output.contains("Information Object Not found") ? 0 : 1;
    }
    // At least an en face image and a report of each scan, the changes of two, a registration.
    assertTrue(known >= 2 * 4 + 2 * 3 + 1, "judged " + known);
  }

  @Test
  void everyFollowUpHasItsChangesAndItsRegistrationIfAny() throws Exception {
    List<String> followUps =
        Folders.rows(run.resolve("change.csv")).stream()
            .map(row -> row.get(3))
            .distinct()
            .sorted()
            .toList();
    assertEquals(2, followUps.size());
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      assertEquals(followUps, List.copyOf(objects("_" + layer.name() + "_change.dcm").keySet()));
    }
    // Without a common frame of reference: an object wherever vessels were found to match.
    List<String> byVessels =
        Folders.rows(run.resolve("change.csv")).stream()
            .filter(row -> row.get(16).equals("vessel-shadows"))
            .map(row -> row.get(3))
            .distinct()
            .sorted()
            .toList();
    assertFalse(byVessels.isEmpty());
    List<String> registered =
        Folders.files(run.resolve("registration")).stream()
            .map(file -> file.getFileName().toString())
            .filter(name -> name.endsWith(".dcm"))
            .map(name -> name.substring(0, name.length() - 4))
            .toList();
    assertEquals(byVessels, registered);
  }

  /**
   * The mean of the cells whose centres lie in the central circle is the table's number, but for
   * the cells that its rim cuts.
   */
  @Test
  void changeMapsHaveTheChangesOfTheTable() throws Exception {
    int compared = 0;
    for (List<String> row : Folders.rows(run.resolve("change.csv"))) {
      String name = row.get(3) + "_" + row.get(6) + "_change.dcm";
      Path file = run.resolve("objects").resolve(name);
      if (!row.get(8).equals("centre") || !Files.exists(file)) {
        continue;
      }
      assertEquals(Double.parseDouble(row.get(11)), centralMean(file), 0.5, name);
      List<String> sources =
          attributes(file)
              .items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE)
              .get(0)
              .items(Tags.DERIVATION_IMAGE_SEQUENCE)
              .get(0)
              .items(Tags.SOURCE_IMAGE_SEQUENCE)
              .stream()
              .map(item -> item.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElseThrow())
              .toList();
      assertEquals(List.of(row.get(3), row.get(21)), sources, name);
      compared++;
    }
    assertEquals(2 * 3, compared);
  }

  /**
   * The second visit of the phantom is shifted and turned by 2.5 degrees: laid on the baseline by
   * its vessels, the change lies in the baseline's coordinates, round the baseline's centre.
   */
  @Test
  void changeMapsLieWhereTheFollowUpWasLaid() throws Exception {
    Map<String, List<String>> centres =
        Folders.rows(run.resolve("sectors.csv")).stream()
            .collect(Collectors.toMap(r -> r.get(3), r -> r.subList(16, 18), (a, b) -> a));
    Map<String, Path> enFaces = objects("_en-face.dcm");
    int moved = 0;
    for (List<String> row : Folders.rows(run.resolve("change.csv"))) {
      Path file = run.resolve("objects").resolve(row.get(3) + "_ILM-RPE_change.dcm");
      boolean byVessels = row.get(16).equals("vessel-shadows");
      String placed = byVessels ? row.get(21) : row.get(3);
      Dataset map = attributes(file);
      assertEquals(
          attributes(enFaces.get(placed)).text(Tags.FRAME_OF_REFERENCE_UID),
          map.text(Tags.FRAME_OF_REFERENCE_UID));
      Dataset shared = map.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0);
      List<String> position =
          shared.items(Tags.PLANE_POSITION_SEQUENCE).get(0).texts(Tags.IMAGE_POSITION_PATIENT);
      double half = (rows(map) - 1) / 2.0 * LATTICE_MM;
      List<String> centre = centres.get(placed);
      assertEquals(
          Double.parseDouble(centre.get(0)), Double.parseDouble(position.get(0)) + half, 0.0006);
      assertEquals(
          Double.parseDouble(centre.get(1)), half - Double.parseDouble(position.get(2)), 0.0006);
      String how =
          shared
              .items(Tags.DERIVATION_IMAGE_SEQUENCE)
              .get(0)
              .text(Tags.DERIVATION_DESCRIPTION)
              .orElseThrow();
      assertTrue(how.contains("follow-up minus baseline, visits laid by " + row.get(16)), how);
      assertTrue(how.contains("place SD 0."), how);
      moved += byVessels ? 1 : 0;
    }
    assertTrue(moved > 0, "a visit laid by its vessels");
  }

  private static int rows(Dataset map) {
    return ((Element.Numbers) map.element(Tags.ROWS).orElseThrow()).values().get(0).intValue();
  }

  private static double centralMean(Path file) throws Exception {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    Dataset plane = object.attributes().items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0);
    double step =
        Double.parseDouble(
            plane
                .items(Tags.PIXEL_MEASURES_SEQUENCE)
                .get(0)
                .text(Tags.PIXEL_SPACING)
                .orElseThrow());
    int cells = (int) Math.round(Math.sqrt(object.pixels().orElseThrow().length() / 4.0));
    FloatBuffer values =
        ByteBuffer.wrap(
                object.source().read(object.pixels().orElseThrow().offset(), cells * cells * 4))
            .order(ByteOrder.LITTLE_ENDIAN)
            .asFloatBuffer();
    double sum = 0;
    int count = 0;
    for (int i = 0; i < cells * cells; i++) {
      int half = cells / 2;
      double x = (i % cells - half) * step;
      double y = (Math.floorDiv(i, cells) - half) * step;
      float value = values.get(i);
      if (Math.hypot(x, y) < 0.5 && !Float.isNaN(value)) {
        sum += value;
        count++;
      }
    }
    return sum / count;
  }

  /** 6.4 mm in steps of 0.02 mm; the slab's surface is the membrane of the scan's height map. */
  @Test
  void enFaceImagesNameTheirScanAndItsMembrane() throws Exception {
    Map<String, Path> images = objects("_en-face.dcm");
    assertEquals(objects("_height-maps.dcm").keySet(), images.keySet());
    for (Map.Entry<String, Path> image : images.entrySet()) {
      ParsedObject object = ParsedObject.of(image.getValue(), new PixelMedObjectReader());
      Dataset attributes = object.attributes();
      assertEquals(List.of("0.02", "0.02"), attributes.texts(Tags.PIXEL_SPACING));
      // One byte each and one to make the number even.
      assertEquals(321L * 321 + 1, object.pixels().orElseThrow().length());
      assertEquals(
          image.getKey(),
          attributes
              .items(Tags.SOURCE_IMAGE_SEQUENCE)
              .get(0)
              .text(Tags.REFERENCED_SOP_INSTANCE_UID)
              .orElseThrow());
      Dataset heights = attributes(objects("_height-maps.dcm").get(image.getKey()));
      Dataset limit = attributes.items(Tags.REFERENCED_SURFACE_MESH_IDENTIFICATION_SEQUENCE).get(0);
      assertEquals(
          heights.text(Tags.SOP_INSTANCE_UID), limit.text(Tags.REFERENCED_SOP_INSTANCE_UID));
      int segment =
          ((Element.Numbers) limit.element(Tags.REFERENCED_SURFACE_NUMBER).orElseThrow())
              .values()
              .get(0)
              .intValue();
      assertEquals(
          "BM",
          heights
              .items(Tags.SEGMENT_SEQUENCE)
              .get(segment - 1)
              .text(Tags.SEGMENT_LABEL)
              .orElseThrow());
    }
  }

  /** dcmtk takes the document out of the object: it is the file beside the tables. */
  @Test
  void wrappedReportsHoldTheReports() throws Exception {
    Map<String, Path> wrapped = objects("_report.dcm");
    assertEquals(4, wrapped.size());
    for (Map.Entry<String, Path> report : wrapped.entrySet()) {
      Path taken = shared.resolve("taken.pdf");
      Tool.run("dcm2pdf", report.getValue().toString(), taken.toString());
      assertArrayEquals(
          Files.readAllBytes(run.resolve("reports").resolve(report.getKey() + ".pdf")),
          Files.readAllBytes(taken));
    }
  }

  /** The report rounds to one decimal what the table has with three. */
  @Test
  void reportsHaveTheNumbersOfTheTable() throws Exception {
    Map<String, List<List<String>>> scans =
        Folders.ofWholeRetina(Folders.rows(run.resolve("sectors.csv"))).stream()
            .collect(Collectors.groupingBy(row -> row.get(3)));
    for (Map.Entry<String, List<List<String>>> scan : scans.entrySet()) {
      Map<String, String> printed = means(run.resolve("reports").resolve(scan.getKey() + ".pdf"));
      assertEquals(3 * 10, printed.size(), printed.toString());
      for (List<String> row : scan.getValue()) {
        String mean = printed.get(row.get(6) + " " + row.get(8));
        if (row.get(9).isEmpty()) {
          assertEquals("n/m", mean, row.toString());
        } else {
          assertEquals(
              Double.parseDouble(row.get(9)), Double.parseDouble(mean), 0.0506, row.toString());
        }
      }
    }
  }

  /** Returns what stands behind each sector's name in the tables beside the maps. */
  private static Map<String, String> means(Path pdf) throws IOException {
    Map<String, String> means = new TreeMap<>();
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      String layer = "";
      for (String line : new PDFTextStripper().getText(document).lines().toList()) {
        String[] words = line.split(" ", -1);
        if (words[0].startsWith("ILM\u2013") && words.length > 2) {
          layer = words[0].replace('\u2013', '-');
        } else if (words[0].matches("centre|(inner|outer)-[a-z]+|total")
            && words.length > 2
            && words[1].matches("[0-9.]+|n/m")) {
          means.putIfAbsent(layer + " " + words[0], words[1]);
        }
      }
    }
    return means;
  }

  private static List<Path> written() throws IOException {
    List<Path> all = new ArrayList<>(Folders.files(run.resolve("objects")));
    Folders.files(run.resolve("registration")).stream()
        .filter(file -> file.toString().endsWith(".dcm"))
        .forEach(all::add);
    return all;
  }

  private static Dataset attributes(Path file) throws Exception {
    return ParsedObject.of(file, new PixelMedObjectReader()).attributes();
  }
}

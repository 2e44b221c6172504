package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Software;
import org.isopach.report.run.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the job makes of boundaries and regions made by hand. */
class RegionJobTest {
  private static final ScanPlan PLAN =
      ScanPlan.raster(new ScanSize(19, 96, 400), 3.87, 6.4, 6.4, 0);

  @TempDir Path folder;

  @Test
  void measuresEveryLayerAndDrawsTheWholeRetina() throws Exception {
    JobResult result = run(PLAN, request().writing(EnumSet.of(Output.BOUNDARIES, Output.PICTURES)));
    assertEquals(ExitStatus.ALL_MEASURED, result.status(), result.findings().toString());
    Set<Layer> layers =
        result.tables().stream().map(table -> table.layer()).collect(Collectors.toSet());
    assertEquals(Set.copyOf(LayerCatalogue.ALL), layers);
    assertEquals(3, list("maps").size());
    Path boundaries = result.folder().boundaries(result.tables().get(0).scan().sopUid());
    assertEquals(1 + 12 * 19 * 96, Files.readAllLines(boundaries).size());
  }

  /** On an even raster the volume is voxels times spacings: 6.4/95, 6.4/18 mm and 3.87 µm. */
  @Test
  void volumesInTheTableAreThoseOfTheVoxels() throws Exception {
    JobResult result = run(PLAN, request());
    double voxelNl = 6.4 / 95 * (6.4 / 18) * 3.87;
    List<String> table = Files.readAllLines(result.folder().fluid());
    assertEquals(3 * 24 * 12 * voxelNl, scanVolume(table, "intraretinal-fluid"), 0.01);
    assertEquals(3 * 10 * 30 * voxelNl, scanVolume(table, "subretinal-fluid"), 0.01);
    assertEquals(1 + 2 * 11, table.size(), "nine sectors, total and scan of two kinds");
    assertFalse(String.join("\n", table).contains("rpe-elevation"), "nobody looked for it");
    assertTrue(
        result.run().outputs().stream()
            .map(RunRecord.OutputEntry::file)
            .anyMatch("fluid.csv"::equals));
  }

  @Test
  void writesLabelImagesOfAllFramesWhenAskedFor() throws Exception {
    JobResult plain = run(PLAN, request());
    assertFalse(Files.exists(folder.resolve("regions")));
    assertFalse(Files.exists(folder.resolve("overlays")));

    run(PLAN, request().drawing(new FrameOutputs(true, 0)));
    String sopUid = plain.tables().get(0).scan().sopUid();
    assertEquals(19, list("regions/" + sopUid).size());
    BufferedImage with = ImageIO.read(plain.folder().regions(sopUid, 9).toFile());
    BufferedImage without = ImageIO.read(plain.folder().regions(sopUid, 0).toFile());
    assertEquals(96, with.getWidth());
    assertEquals(400, with.getHeight());
    assertEquals(1, with.getRaster().getSample(48, 130, 0));
    assertEquals(2, with.getRaster().getSample(48, 175, 0));
    assertEquals(0, with.getRaster().getSample(48, 150, 0));
    assertEquals(0, without.getRaster().getSample(48, 130, 0));
  }

  @Test
  void drawsTheCentreAndTheLargestSections() throws Exception {
    JobResult result = run(PLAN, request().drawing(new FrameOutputs(false, 2)));
    String sopUid = result.tables().get(0).scan().sopUid();
    assertEquals(List.of("8.png", "9.png"), list("overlays/" + sopUid));
    JobResult all = run(PLAN, request().drawing(new FrameOutputs(false, FrameOutputs.ALL_FRAMES)));
    assertEquals(19, list("overlays/" + sopUid).size());
    assertEquals(
        19, all.run().outputs().stream().filter(one -> one.file().startsWith("overlays/")).count());
  }

  @Test
  void aSingleLineGetsSectionHeightLabelsAndOverlay() throws Exception {
    JobResult result =
        run(ScanPlan.line(256, 400, 3.87, 6.4, 0), request().drawing(new FrameOutputs(true, 5)));
    List<String> table = Files.readAllLines(result.folder().fluid());
    assertEquals(3, table.size());
    List<String> cells = List.of(table.get(1).split(",", -1));
    List<String> names = List.of(table.get(0).split(",", -1));
    assertEquals("", cells.get(names.indexOf("volume_nl")));
    assertEquals("true", cells.get(names.indexOf("present")));
    assertEquals("92.880", cells.get(names.indexOf("max_height_um")));
    assertEquals("1", cells.get(names.indexOf("regions")));
    double section = Double.parseDouble(cells.get(names.indexOf("largest_section_mm2")));
    assertEquals(12 * 24 * (6.4 / 255) * 0.00387, section, 1e-6);
    assertTrue(table.get(1).contains("spans-no-area"), table.get(1));
    assertEquals(1, list("regions").size());
    assertEquals(1, list("overlays").size());
  }

  @Test
  void theNumberOfThreadsChangesNothing() throws Exception {
    JobRequest request = request().drawing(new FrameOutputs(true, 3));
    List<RunRecord.OutputEntry> one = run(PLAN, request.onThreads(1)).run().outputs();
    List<RunRecord.OutputEntry> four = run(PLAN, request.onThreads(4)).run().outputs();
    assertEquals(one, four);
  }

  private static double scanVolume(List<String> table, String kind) {
    List<String> names = List.of(table.get(0).split(",", -1));
    String row =
        table.stream()
            .filter(line -> line.contains("," + kind + ",etdrs-1-3-6,scan,"))
            .findFirst()
            .orElseThrow();
    return Double.parseDouble(row.split(",", -1)[names.indexOf("volume_nl")]);
  }

  private List<String> list(String name) throws Exception {
    try (var files = Files.list(folder.resolve(name))) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  private JobRequest request() {
    return JobRequest.of(List.of(folder.resolve("in")), folder)
        .writing(EnumSet.of(Output.BOUNDARIES));
  }

  private JobResult run(ScanPlan plan, JobRequest request) throws Exception {
    PhantomScan phantom = PhantomScan.of(PhantomParameters.meanEye(Laterality.RIGHT), plan);
    OctScan scan = phantom.scan();
    return new ThicknessJob(
            inputs -> SampleScans.contents(List.of(scan)),
            (map, source, provenance, target) ->
                new MapWriteResult.Refused(MapWriteResult.Reason.NO_VALUES, "not asked for"),
            DicomWriters.registrations(),
            Software.current(),
            (pool, threads) -> one -> HandMade.segmentation(one, phantom.truth()))
        .run("measure", request, JobListener.SILENT);
  }
}

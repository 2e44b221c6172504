package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.change.ChangeRegions;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.report.Software;
import org.isopach.report.table.AlignedChange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From where a run takes the noise of its changes; boundaries are the true ones. */
class NoiseStageTest {
  private static final LocalDateTime DAY = LocalDateTime.of(2026, 2, 3, 9, 0);

  private final Map<String, PhantomTruth> truths = new LinkedHashMap<>();

  @TempDir Path folder;

  @Test
  void takesItFromScansOfOneDayInTheFolder() throws Exception {
    List<OctScan> scans = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      scans.add(scan(i, DAY.plusHours(i), "1.2.3"));
    }
    scans.add(scan(6, DAY.plusDays(28), "1.2.4"));

    AlignedChange change = compare(scans, List.of(), NoiseChoice.USUAL);

    Given given = given(change);
    assertEquals(NoiseSource.SAME_DAY_REPEATS, given.noise().source());
    assertEquals(3, given.noise().degreesOfFreedom());
    assertEquals("3 pairs of scans of one day", given.noise().reference());
    assertInstanceOf(ChangeRegions.Sought.class, change.regions());
    List<String> table = Files.readAllLines(folder.resolve("change.csv"));
    assertTrue(
        table.stream().anyMatch(line -> line.contains("same-day-repeats,3.0,3 pairs")),
        table.get(1));
    assertTrue(Files.readString(folder.resolve("change.json")).contains("\"noise_df\" : 3.0"));
    assertTrue(Files.exists(folder.resolve("change-regions.csv")));
  }

  @Test
  void prefersRepeatsThatWereGiven() throws Exception {
    List<OctScan> scans = List.of(scan(0, DAY, "1.2.3"), scan(1, DAY.plusDays(28), "1.2.4"));
    List<OctScan> repeats = new ArrayList<>();
    for (int i = 2; i < 8; i++) {
      repeats.add(scan(i, DAY.plusHours(i), "1.2.5"));
    }

    Path place = folder.resolve("repeats");
    Given given = given(compare(scans, repeats, new NoiseChoice(Optional.of(place), "normal")));

    assertEquals(NoiseSource.GIVEN_REPEATS, given.noise().source());
    assertEquals("3 pairs of repeats given", given.noise().reference());
  }

  private static Given given(AlignedChange change) {
    MeasuredChange measured =
        assertInstanceOf(MeasuredChange.class, change.table().sector("inner-nasal").orElseThrow());
    return assertInstanceOf(Given.class, measured.uncertainty());
  }

  private OctScan scan(int number, LocalDateTime time, String study) {
    PhantomScan made =
        PhantomScan.of(
            PhantomParameters.meanEye(Laterality.RIGHT).rescanned(number), SampleScans.SMALL);
    String uid = study + ".1." + number;
    truths.put(uid, made.truth());
    return made.withIdentity(
            new ScanIdentity("TSEU-1", study, study + ".1", uid, Optional.of(time)))
        .scan();
  }

  private AlignedChange compare(List<OctScan> scans, List<OctScan> repeats, NoiseChoice choice)
      throws Exception {
    JobRequest request =
        JobRequest.of(List.of(folder.resolve("in")), folder)
            .writing(EnumSet.noneOf(Output.class))
            .comparedWith(BaselineChoice.FIRST.withNoise(choice));
    JobResult result =
        new ThicknessJob(
                inputs -> SampleScans.contents(inputs.get(0).endsWith("repeats") ? repeats : scans),
                (map, source, provenance, target) ->
                    new MapWriteResult.Refused(MapWriteResult.Reason.NO_VALUES, "not asked for"),
                DicomWriters.registrations(),
                Software.current(),
                (pool, threads) ->
                    one -> HandMade.segmentation(one, truths.get(one.identity().sopUid())))
            .run("compare", request, JobListener.SILENT);
    return result.changes().stream()
        .filter(change -> change.table().layer().equals(Layer.ILM_BM))
        .findFirst()
        .orElseThrow();
  }
}

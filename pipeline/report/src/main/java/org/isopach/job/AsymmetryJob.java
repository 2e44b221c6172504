package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.isopach.analysis.asymmetry.AsymmetryTable;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.ScanArchive;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.report.Software;
import org.isopach.report.table.AsymmetryFile;

/**
 * The job about both eyes: measures every scan and lays the two eyes of each patient's visit on one
 * another. Memory holds one pair of scans.
 */
public final class AsymmetryJob {
  private final ScanArchive archive;
  private final ThicknessMapWriter objects;
  private final Software software;
  private final SeriesJob.Measurers measurers;

  /**
   * Makes a job.
   *
   * @param archive finds the scans
   * @param objects writes maps as standard objects
   * @param software the program that signs the results
   */
  public AsymmetryJob(ScanArchive archive, ThicknessMapWriter objects, Software software) {
    this(archive, objects, software, ScanMeasurer::of);
  }

  AsymmetryJob(
      ScanArchive archive,
      ThicknessMapWriter objects,
      Software software,
      SeriesJob.Measurers measurers) {
    this.archive = Objects.requireNonNull(archive, "archive");
    this.objects = Objects.requireNonNull(objects, "objects");
    this.software = Objects.requireNonNull(software, "software");
    this.measurers = Objects.requireNonNull(measurers, "measurers");
  }

  /**
   * Does what is asked for; the request's baseline is not looked at.
   *
   * @throws IOException when the run folder's own tables cannot be written
   * @throws InterruptedException when the calling thread is interrupted
   */
  public AsymmetryResult run(JobRequest request, JobListener listener)
      throws IOException, InterruptedException {
    try (OpenRun run = new OpenRun(request, archive, software, listener)) {
      RunLedger ledger = run.ledger();
      run.begin(run.scans().size());
      run.sayIssuers();
      run.contents().maps().forEach(map -> ledger.add(ImportedMaps.notCompared(map)));
      AsymmetryStage stage =
          new AsymmetryStage(
              run.scanRun(measurers.of(request, run.pool()), objects),
              new AsymmetryPictures(request, software, run.pool()),
              request,
              ledger);
      List<AsymmetryTable> tables = measure(run.scans(), stage, ledger);
      RunTables.write(run);
      Path table = run.folder().asymmetry();
      ledger.add(new WrittenFile(table, AsymmetryFile.write(table, tables)));
      return new AsymmetryResult(run.finish("asymmetry", Map.of()), tables);
    }
  }

  private static List<AsymmetryTable> measure(
      List<OctScan> scans, AsymmetryStage stage, RunLedger ledger) throws InterruptedException {
    List<AsymmetryTable> tables = new ArrayList<>();
    Set<String> done = new HashSet<>();
    for (EyePair pair : EyePair.among(EyeVisits.of(scans))) {
      tables.addAll(stage.compare(pair));
      done.add(pair.right().document().location());
      done.add(pair.left().document().location());
    }
    for (OctScan scan : scans) {
      if (done.add(scan.document().location())) {
        stage.measure(scan);
        ledger.add(
            new Finding(
                FindingKind.NO_OTHER_EYE,
                scan.document().location(),
                "measured, but not laid on the other eye: no scan of that eye and visit goes with"
                    + " it"));
      }
    }
    return tables;
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.asymmetry.AsymmetryTable;
import org.isopach.analysis.asymmetry.EyePairComparer;
import org.isopach.analysis.asymmetry.EyePairResult;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.scan.OctScan;

/** Measures one pair of eyes after the other and lays them on one another. */
final class AsymmetryStage {
  private final ScanRun run;
  private final AsymmetryPictures pictures;
  private final JobRequest request;
  private final RunLedger ledger;
  private final EyePairComparer comparer = new EyePairComparer(new SectorTabulator());

  AsymmetryStage(ScanRun run, AsymmetryPictures pictures, JobRequest request, RunLedger ledger) {
    this.run = run;
    this.pictures = pictures;
    this.request = request;
    this.ledger = ledger;
  }

  /** Measures a scan that has no partner. */
  void measure(OctScan scan) throws InterruptedException {
    run.measure(scan, measured -> {});
  }

  /** Measures both scans and returns one table for each layer that both have. */
  List<AsymmetryTable> compare(EyePair pair) throws InterruptedException {
    List<MeasuredScan> right = new ArrayList<>();
    List<AsymmetryTable> tables = new ArrayList<>();
    run.measure(pair.right(), scan -> right.add(scan.withoutLabels()));
    run.measure(
        pair.left(),
        left -> {
          if (!right.isEmpty()) {
            tables.addAll(compare(right.get(0), left));
          }
        });
    return tables;
  }

  private List<AsymmetryTable> compare(MeasuredScan right, MeasuredScan left)
      throws InterruptedException {
    List<EyePairResult.Compared> compared = new ArrayList<>();
    for (MappedLayer layer : right.layers()) {
      Optional<MappedLayer> other = left.layer(layer.map().layer());
      if (other.isEmpty()) {
        continue;
      }
      EyePairResult result =
          comparer.compare(
              new VisitMap(layer.map(), right.scan().axial()),
              new VisitMap(other.get().map(), left.scan().axial()),
              request.grid(),
              LayerMapper.MINIMUM_COVERAGE);
      if (result instanceof EyePairResult.Compared both) {
        compared.add(both);
      } else {
        refuse(right, left, ((EyePairResult.Refused) result).detail());
        return List.of();
      }
    }
    if (compared.isEmpty()) {
      refuse(right, left, "no layer could be mapped in both eyes");
    }
    ledger.add(pictures.write(compared));
    return compared.stream().map(EyePairResult.Compared::table).toList();
  }

  private void refuse(MeasuredScan right, MeasuredScan left, String why) {
    ledger.add(
        new Finding(
            FindingKind.EYES_NOT_COMPARED,
            left.scan().document().location(),
            "not laid on " + right.scan().document().location() + ": " + why));
  }
}

package org.isopach.job;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.region.RegionTable;
import org.isopach.report.run.RunRecord;
import org.isopach.report.table.AlignedChange;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveTable;

/**
 * What a run brought.
 *
 * @param folder where its files are
 * @param tables the sectors of every scan and layer, in the order of {@code sectors.csv}
 * @param regions the sizes of fluid and other regions, in the order of {@code fluid.csv}
 * @param changes the changes between visits, in the order of {@code change.csv}; empty when none
 *     were asked for
 * @param nerve what was measured of the nerve, in the order of {@code nerve.csv}; empty where no
 *     scan shows it, or nobody looked
 * @param nerveChanges how that changed between visits, in the order of {@code nerve-change.csv}
 * @param findings what there was to say
 * @param files the files written, by name, without the run record itself
 * @param status how it ended
 * @param run what stands in {@code run.json}
 */
public record JobResult(
    RunFolder folder,
    List<SectorTable> tables,
    List<RegionTable> regions,
    List<AlignedChange> changes,
    List<NerveTable> nerve,
    List<NerveChange> nerveChanges,
    List<Finding> findings,
    List<WrittenFile> files,
    ExitStatus status,
    RunRecord run) {
  public JobResult {
    Objects.requireNonNull(folder, "folder");
    tables = List.copyOf(tables);
    regions = List.copyOf(regions);
    changes = List.copyOf(changes);
    nerve = List.copyOf(nerve);
    nerveChanges = List.copyOf(nerveChanges);
    findings = List.copyOf(findings);
    files = List.copyOf(files);
    Objects.requireNonNull(status, "status");
    Objects.requireNonNull(run, "run");
  }
}

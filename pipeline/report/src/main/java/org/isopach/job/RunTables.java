package org.isopach.job;

import java.io.IOException;
import org.isopach.report.table.FluidFile;
import org.isopach.report.table.QualityFile;
import org.isopach.report.table.SectorFile;

/** Writes the tables that every run that measures scans has: sectors, fluid, quality. */
final class RunTables {
  private RunTables() {}

  static void write(JobRequest request, RunLedger ledger) throws IOException {
    RunFolder folder = new RunFolder(request.out());
    ledger.add(
        new WrittenFile(folder.sectors(), SectorFile.write(folder.sectors(), ledger.tables())));
    ledger.add(new WrittenFile(folder.fluid(), FluidFile.write(folder.fluid(), ledger.regions())));
    ledger.add(
        new WrittenFile(folder.quality(), QualityFile.write(folder.quality(), ledger.grades())));
  }
}

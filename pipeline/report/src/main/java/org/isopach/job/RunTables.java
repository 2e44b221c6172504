package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import org.isopach.report.table.ChangeFile;
import org.isopach.report.table.ChangeJson;
import org.isopach.report.table.ChangeRegionFile;
import org.isopach.report.table.FluidFile;
import org.isopach.report.table.QualityFile;
import org.isopach.report.table.RegistrationFile;
import org.isopach.report.table.SectorFile;

/** Writes the tables of a run that measures scans. */
final class RunTables {
  private final RunFolder folder;
  private final RunLedger ledger;

  /** Writes one table and returns its digest. */
  private interface Table {
    String write(Path target) throws IOException;
  }

  private RunTables(OpenRun run) {
    this.folder = run.folder();
    this.ledger = run.ledger();
  }

  /** Writes what every such run has: sectors, fluid, quality. */
  static void write(OpenRun run) throws IOException {
    FilePiece.write(FileKind.RUN_TABLES, run.listener(), new RunTables(run)::measured);
  }

  /** Writes what a run has that compares visits: changes, and how scans were laid on others. */
  static void writeChanges(OpenRun run) throws IOException {
    FilePiece.write(FileKind.RUN_TABLES, run.listener(), new RunTables(run)::changes);
  }

  private void measured() throws IOException {
    add(folder.sectors(), target -> SectorFile.write(target, ledger.tables()));
    add(folder.fluid(), target -> FluidFile.write(target, ledger.regions()));
    add(folder.quality(), target -> QualityFile.write(target, ledger.grades()));
  }

  private void changes() throws IOException {
    add(folder.change(), target -> ChangeFile.write(target, ledger.changes()));
    add(folder.registrations(), target -> RegistrationFile.write(target, ledger.laidScans()));
    add(folder.changeRegions(), target -> ChangeRegionFile.write(target, ledger.changes()));
    add(folder.changeJson(), target -> ChangeJson.write(target, ledger.changes()));
  }

  private void add(Path target, Table table) throws IOException {
    ledger.add(new WrittenFile(target, table.write(target)));
  }
}

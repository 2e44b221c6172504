package org.isopach.job;

import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.ThicknessMap;

/**
 * What there is to say about maps that came as objects. A scan's layer stands in the tables once:
 * as measured from the scan when the scan is there, else as the first of its maps has it.
 */
final class ImportedMaps {
  private ImportedMaps() {}

  /** Returns why a map is not tabulated, or empty when it is. */
  static Optional<Finding> obstacle(ThicknessMap map, RunLedger ledger) {
    String words = map.layer().name() + " of the scan " + map.scan().sopUid();
    if (!ledger.hasTable(map.scan().sopUid(), map.layer())) {
      return Optional.empty();
    }
    return Optional.of(
        ledger.tookScan(map.scan().sopUid())
            ? finding(map, FindingKind.MAP_OF_MEASURED_SCAN, "the map shows " + words)
            : finding(map, FindingKind.MAP_DOUBLED, "another map shows " + words + " as well"));
  }

  /** Returns that a map is in no change table. */
  static Finding notCompared(ThicknessMap map) {
    return finding(map, FindingKind.MAP_NOT_COMPARED, "the map was tabulated, not compared");
  }

  private static Finding finding(ThicknessMap map, FindingKind kind, String detail) {
    return new Finding(kind, map.document().location(), detail);
  }
}

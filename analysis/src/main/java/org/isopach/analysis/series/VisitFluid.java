package org.isopach.analysis.series;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionResult;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.region.UnmeasuredRegion;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The fluid of one visit within the grid: in the retina and under it, together.
 *
 * @param scan the scan that stands for the visit
 * @param date its calendar date
 * @param volumeNl volume in nL; empty when either kind could not be measured
 * @param reason why there is no volume; empty where there is one
 */
public record VisitFluid(
    ScanIdentity scan, LocalDate date, OptionalDouble volumeNl, String reason) {
  private static final List<RegionKind> KINDS =
      List.of(RegionKind.INTRARETINAL_FLUID, RegionKind.SUBRETINAL_FLUID);

  public VisitFluid {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(date, "date");
    Objects.requireNonNull(volumeNl, "volumeNl");
    Objects.requireNonNull(reason, "reason");
  }

  /** Returns the fluid of a visit whose regions stand in tables, one for each kind looked for. */
  public static VisitFluid of(ScanIdentity scan, LocalDate date, List<RegionTable> tables) {
    double sum = 0;
    List<String> missing = new ArrayList<>();
    for (RegionKind kind : KINDS) {
      Optional<RegionResult> total =
          tables.stream()
              .filter(table -> table.kind() == kind)
              .findFirst()
              .flatMap(table -> table.place(SectorGrid.TOTAL));
      if (total.isEmpty()) {
        missing.add(kind.code() + " was not looked for within the grid");
      } else if (total.get() instanceof MeasuredRegion measured) {
        sum += measured.volumeNl();
      } else {
        missing.add(kind.code() + ": " + ((UnmeasuredRegion) total.get()).detail());
      }
    }
    return missing.isEmpty()
        ? new VisitFluid(scan, date, OptionalDouble.of(sum), "")
        : new VisitFluid(scan, date, OptionalDouble.empty(), String.join("; ", missing));
  }
}

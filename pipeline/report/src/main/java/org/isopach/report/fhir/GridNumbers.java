package org.isopach.report.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;

/**
 * The numbers of a layer on a grid: thickness at the centre, mean thickness of every sector and of
 * the whole, volume of the whole.
 */
final class GridNumbers {
  private static final String CENTRE_POINT = "centre-point";
  private static final String VOLUME = "total-volume";
  private static final int MICROMETRE_DECIMALS = 3;
  private static final int CUBIC_MILLIMETRE_DECIMALS = 6;

  private GridNumbers() {}

  static List<FhirNumber> of(SectorTable table, String lengths) {
    List<FhirNumber> numbers = new ArrayList<>();
    numbers.add(thickness(table, CENTRE_POINT, table.centrePoint(), lengths));
    for (SectorResult result : table.sectors()) {
      numbers.add(thickness(table, result.sector(), result, lengths));
      if (result.sector().equals(SectorGrid.TOTAL)) {
        numbers.add(volume(table, result, lengths));
      }
    }
    return numbers;
  }

  private static FhirNumber thickness(
      SectorTable table, String sector, SectorResult result, String lengths) {
    boolean point = sector.equals(CENTRE_POINT);
    String how =
        point ? "mean of the disc of 0.05 mm radius round the centre" : "area-weighted mean";
    Optional<String> loinc =
        point ? LoincCodes.centrePoint(table) : LoincCodes.thickness(table, sector);
    OptionalDouble um =
        result instanceof Measured measured
            ? OptionalDouble.of(measured.meanUm())
            : OptionalDouble.empty();
    return number(
        table, result, sector, loinc, um, "um", MICROMETRE_DECIMALS, how + ", " + lengths);
  }

  private static FhirNumber volume(SectorTable table, SectorResult total, String lengths) {
    OptionalDouble mm3 =
        total instanceof Measured measured
            ? OptionalDouble.of(measured.volumeMm3())
            : OptionalDouble.empty();
    return number(
        table,
        total,
        VOLUME,
        LoincCodes.volume(table),
        mm3,
        "mm3",
        CUBIC_MILLIMETRE_DECIMALS,
        "volume under the whole grid, " + lengths);
  }

  private static FhirNumber number(
      SectorTable table,
      SectorResult result,
      String sector,
      Optional<String> loinc,
      OptionalDouble value,
      String unit,
      int decimals,
      String how) {
    String layer = table.layer().name();
    return new FhirNumber(
        table.scan(),
        String.join("/", layer, table.grid().name(), sector),
        loinc,
        layer + " " + sector + (sector.equals(VOLUME) ? "" : " thickness"),
        value,
        unit,
        decimals,
        OptionalDouble.of(result.coveredFraction()),
        result instanceof NotMeasurable refused
            ? refused.reason().code() + ": " + refused.detail()
            : "",
        String.format(
            Locale.ROOT,
            "%s, %s along the A-scan, grid %s round %s, a number from %.0f %% of the sector covered",
            how,
            layer,
            table.grid().name(),
            table.centre().source().code(),
            100 * table.minimumCoverage()),
        loinc.isPresent() ? FhirPanel.MACULA : FhirPanel.LAYERS);
  }
}

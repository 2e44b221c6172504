package org.isopach.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionResult;
import org.isopach.analysis.region.RegionTable;

/** Prints how much fluid and other regions scans have: one line for a kind. */
final class RegionPrinter {
  private static final String HEADING =
      "                              centre inner disc     grid     scan | regions  section mm2";

  private final PrintWriter out;

  RegionPrinter(PrintWriter out) {
    this.out = out;
  }

  void print(List<RegionTable> tables) {
    String before = "";
    for (RegionTable table : tables) {
      if (!before.equals(table.scan().sopUid())) {
        before = table.scan().sopUid();
        out.println();
        out.println("Regions in nL, candidates for review: scan " + PlainText.of(before));
        out.println(HEADING);
      }
      out.println(line(table));
    }
  }

  private static String line(RegionTable table) {
    return String.format(
        Locale.ROOT,
        "  %-26s%8s %10s %8s %8s | %7s  %11s",
        table.kind().code(),
        volume(table.place("centre")),
        innerThree(table),
        volume(table.place(SectorGrid.TOTAL)),
        volume(Optional.of(table.whole())),
        table.found().map(found -> Integer.toString(found.regions())).orElse("n/m"),
        section(table));
  }

  /** Centre and inner ring: the disc of the middle circle. */
  private static String innerThree(RegionTable table) {
    double sum = 0;
    int sectors = 0;
    for (RegionResult result : table.sectors()) {
      boolean inside = result.place().equals("centre") || result.place().startsWith("inner-");
      if (inside && !(result instanceof MeasuredRegion)) {
        return "n/m";
      }
      if (inside) {
        sum += ((MeasuredRegion) result).volumeNl();
        sectors++;
      }
    }
    return sectors == 0 ? "n/m" : number(sum, 1);
  }

  private static String section(RegionTable table) {
    return table
        .found()
        .map(found -> found.largestSection().map(one -> number(one.areaMm2(), 4)).orElse("0"))
        .orElse("n/m");
  }

  private static String volume(Optional<RegionResult> result) {
    return result
        .filter(MeasuredRegion.class::isInstance)
        .map(one -> number(((MeasuredRegion) one).volumeNl(), 1))
        .orElse("n/m");
  }

  private static String number(double value, int decimals) {
    return String.format(Locale.ROOT, "%." + decimals + "f", value);
  }
}

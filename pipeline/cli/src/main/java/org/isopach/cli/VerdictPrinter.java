package org.isopach.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.isopach.analysis.change.ChangeRegions.Sought;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.ChangeUncertainty.NotGiven;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.change.Verdict;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.report.table.AlignedChange;
import org.isopach.report.table.ChangeRegionFile;

/** Prints in words what the changes of one scan mean, a few lines for a layer. */
final class VerdictPrinter {
  private static final String INDENT = " ".repeat(17);

  private final PrintWriter out;

  VerdictPrinter(PrintWriter out) {
    this.out = out;
  }

  /** Prints the verdicts on all layers of one scan against its baseline. */
  void print(List<AlignedChange> layers) {
    if (layers.isEmpty()) {
      return;
    }
    out.println("  Is it more than noise?");
    out.println(
        String.format(
            Locale.ROOT,
            "  laid by %s, error of place %.3f mm (SD along each axis)",
            layers.get(0).alignment(),
            layers.get(0).placeSdMm()));
    layers.forEach(this::layer);
  }

  private void layer(AlignedChange change) {
    List<String> lines = new ArrayList<>();
    List<String> still = new ArrayList<>();
    Map<String, List<String>> unknown = new LinkedHashMap<>();
    Map<String, Integer> noise = new LinkedHashMap<>();
    for (SectorChange sector : change.table().sectors()) {
      if (!(sector instanceof MeasuredChange measured)) {
        continue;
      }
      if (measured.uncertainty() instanceof Given given) {
        noise.merge(words(given.noise()), 1, Integer::sum);
        if (given.beyondNoise()) {
          lines.add(sector.sector() + " " + ascii(Verdict.words(sector)));
        } else {
          still.add(sector.sector());
        }
      } else {
        String why = ((NotGiven) measured.uncertainty()).reason();
        unknown.computeIfAbsent(why, key -> new ArrayList<>()).add(sector.sector());
      }
    }
    if (!still.isEmpty()) {
      lines.add("no change beyond measurement noise: " + places(still));
    }
    unknown.forEach(
        (why, sectors) -> lines.add("not known: " + places(sectors) + " (" + why + ")"));
    regions(change, lines);
    noise.keySet().forEach(words -> lines.add("noise: " + words));
    String name = LayerCatalogue.shortName(change.table().layer());
    for (int i = 0; i < lines.size(); i++) {
      out.println((i == 0 ? String.format("  %-15s", name) : INDENT) + lines.get(i));
    }
  }

  private static void regions(AlignedChange change, List<String> lines) {
    if (change.regions() instanceof Sought sought) {
      if (sought.regions().isEmpty()) {
        lines.add("no region of the map beyond measurement noise");
      }
      sought.regions().forEach(region -> lines.add(region(region.number(), region)));
    }
  }

  private static String region(int number, org.isopach.analysis.change.ChangeRegion region) {
    return "region " + number + " " + ascii(ChangeRegionFile.words(region));
  }

  private static String words(SectorNoise noise) {
    return String.format(
        Locale.ROOT,
        "%s, %s, %.0f degrees of freedom",
        noise.source().code(),
        ascii(noise.reference()),
        noise.degreesOfFreedom());
  }

  private static String places(List<String> sectors) {
    return sectors.size() == 10 ? "all sectors and the total" : String.join(", ", sectors);
  }

  /** Terminals may not show the signs of micro and square. */
  private static String ascii(String text) {
    return text.replace("µm", "um").replace("mm²", "mm2");
  }
}

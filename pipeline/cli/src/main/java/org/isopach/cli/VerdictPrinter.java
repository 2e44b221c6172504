package org.isopach.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.change.ChangeRegion;
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

  private static final int WHOLE_GRID = 10;

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
    Map<String, List<String>> silent = new LinkedHashMap<>();
    for (AlignedChange change : layers) {
      String name = LayerCatalogue.shortName(change.table().layer());
      Optional<String> why = wholly(change);
      if (why.isPresent()) {
        silent.computeIfAbsent(why.get(), key -> new ArrayList<>()).add(name);
      } else {
        lines(name, change);
      }
    }
    silent.forEach((why, names) -> out.println("  not known of " + list(names) + ": " + why));
  }

  /** Returns why nothing is known of a layer, if that is so everywhere for one reason. */
  private static Optional<String> wholly(AlignedChange change) {
    List<String> reasons =
        change.table().sectors().stream()
            .filter(MeasuredChange.class::isInstance)
            .map(sector -> ((MeasuredChange) sector).uncertainty())
            .map(known -> known instanceof NotGiven none ? none.reason() : "")
            .distinct()
            .toList();
    boolean one = reasons.size() == 1 && !reasons.get(0).isEmpty();
    return one && !(change.regions() instanceof Sought)
        ? Optional.of(reasons.get(0))
        : Optional.empty();
  }

  private void lines(String name, AlignedChange change) {
    List<String> lines = new ArrayList<>();
    List<String> still = new ArrayList<>();
    Map<String, List<String>> unknown = new LinkedHashMap<>();
    Map<String, List<String>> noise = new LinkedHashMap<>();
    for (SectorChange sector : change.table().sectors()) {
      if (!(sector instanceof MeasuredChange measured)) {
        continue;
      }
      if (measured.uncertainty() instanceof Given given) {
        noise.computeIfAbsent(words(given.noise()), key -> new ArrayList<>()).add(sector.sector());
        if (given.beyondNoise()) {
          lines.add(sector.sector() + " " + PlainText.of(Verdict.words(sector)));
        } else {
          still.add(sector.sector());
        }
      } else {
        String why = ((NotGiven) measured.uncertainty()).reason();
        unknown.computeIfAbsent(why, key -> new ArrayList<>()).add(sector.sector());
      }
    }
    if (!still.isEmpty()) {
      lines.add("no change beyond measurement noise: " + list(still));
    }
    unknown.forEach((why, sectors) -> lines.add("not known: " + list(sectors) + ": " + why));
    regions(change, lines);
    noise.forEach((words, sectors) -> lines.add("noise of " + list(sectors) + ": " + words));
    for (int i = 0; i < lines.size(); i++) {
      out.println((i == 0 ? String.format("  %-15s", name) : INDENT) + lines.get(i));
    }
  }

  private static void regions(AlignedChange change, List<String> lines) {
    if (change.regions() instanceof Sought sought) {
      if (sought.regions().isEmpty()) {
        lines.add("no region of the map beyond measurement noise");
      }
      sought.regions().forEach(region -> lines.add(region(region)));
    }
  }

  private static String region(ChangeRegion region) {
    return "region " + region.number() + " " + PlainText.of(ChangeRegionFile.words(region));
  }

  private static String words(SectorNoise noise) {
    return String.format(
        Locale.ROOT,
        "%s, %s, %.0f degrees of freedom",
        noise.source().code(),
        PlainText.of(noise.reference()),
        noise.degreesOfFreedom());
  }

  private static String list(List<String> names) {
    return names.size() == WHOLE_GRID ? "all sectors and the total" : String.join(", ", names);
  }
}

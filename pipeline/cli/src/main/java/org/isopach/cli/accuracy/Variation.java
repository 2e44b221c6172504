package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.UnaryOperator;
import org.isopach.fixtures.phantom.Imaging;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.ScanPlan;

/**
 * One way to make a scan harder or easier.
 *
 * @param group what is varied
 * @param name how it is set
 * @param change what it does to drawn parameters
 * @param plan the pattern
 */
record Variation(
    String group, String name, UnaryOperator<PhantomParameters> change, ScanPlan plan) {
  private static final int LARGE_FRAME = 1_000_000;

  Variation {
    Objects.requireNonNull(group, "group");
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(change, "change");
    Objects.requireNonNull(plan, "plan");
  }

  /** Returns whether a scan takes so long to render that only few are made. */
  boolean large() {
    return plan.size().framePixels() > LARGE_FRAME;
  }

  /** Returns all variations, group by group. */
  static List<Variation> all() {
    List<Variation> list = new ArrayList<>();
    for (int db : new int[] {5, 0, -5, -10}) {
      double snr = Imaging.TYPICAL_SNR_DB + db;
      list.add(typical("SNR", String.format(Locale.ROOT, "%.0f dB", snr), p -> p.withSnr(snr)));
    }
    for (int slope : new int[] {0, 50, 100, 150}) {
      list.add(typical("Tilt", slope + " µm/mm", p -> p.withTilt(slope, 0)));
    }
    String spacing = "Frame spacing";
    list.add(of(spacing, "0.333 mm (19 x 512 x 496)", ScanPlan.coarse()));
    list.add(of(spacing, "0.125 mm (49 x 512 x 496)", ScanPlan.typical()));
    list.add(of(spacing, "0.0625 mm (97 x 1024 x 1024)", ScanPlan.fine()));
    String other = "Other";
    list.add(
        typical(
            other,
            "blinks begin in 5 % of frames",
            p -> p.withMotion(p.motion().withBlinks(0.05))));
    return List.copyOf(list);
  }

  private static Variation typical(
      String group, String name, UnaryOperator<PhantomParameters> change) {
    return new Variation(group, name, change, ScanPlan.typical());
  }

  private static Variation of(String group, String name, ScanPlan plan) {
    return new Variation(group, name, UnaryOperator.identity(), plan);
  }
}

package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.isopach.cli.page.Markdown;

/** Writes the page on how well visits are laid on one another. */
final class RegistrationStudy {
  private static final int EYES_A_BATCH = 25;
  private static final double DECENTRED_BAR_UM = 1.5;

  private final Chain chain;
  private final Progress progress;

  RegistrationStudy(Chain chain, Progress progress) {
    this.chain = chain;
    this.progress = progress;
  }

  /** Adds the page; each follow-up is also laid on the next two eyes' baselines of its batch. */
  void addTo(Markdown page, List<Long> seeds) throws InterruptedException {
    List<Callable<List<RegistrationOutcome>>> work = new ArrayList<>();
    List<Integer> strangers = new ArrayList<>();
    List<Integer> taken = new ArrayList<>();
    for (int from = 0; from < seeds.size(); from += EYES_A_BATCH) {
      List<Long> batch = seeds.subList(from, Math.min(seeds.size(), from + EYES_A_BATCH));
      work.add(() -> batch(batch, strangers, taken));
    }
    List<RegistrationOutcome> outcomes =
        chain.all(progress.watching("batches of pairs", work)).stream()
            .flatMap(List::stream)
            .toList();
    page.paragraph(
        outcomes.size()
            + " pairs of scans of one eye, seeds from "
            + seeds.get(0)
            + ": shifted by up to 1 mm, turned by up to 10 degrees, stated up to 5 % too large or"
            + " too small; 49, 61 or 97 frames of 384, 512 or 768 A-scans over 6, 7 or 9 mm, across"
            + " or upright; place, tilt, motion (walk and jumps), brightness and speckle drawn anew"
            + " for each scan. The depth of Bruch's membrane and the fovea are the true ones with"
            + " drawn errors of the size that segmentation makes. Errors are distances between where"
            + " an A-scan's beam was and where it was laid.");
    page.table(
        List.of("figure", "found", "bar", "met"), rows(outcomes, sum(strangers), sum(taken)));
    calibration(page, outcomes.stream().filter(RegistrationOutcome::found).toList());
  }

  /** Adds how far decentred rescans differ. */
  void addDecentred(Markdown page, List<Long> seeds) throws InterruptedException {
    List<List<String>> rows = new ArrayList<>();
    for (boolean laid : new boolean[] {true, false}) {
      List<Callable<List<Double>>> work = new ArrayList<>();
      for (long seed : seeds) {
        work.add(() -> new DecentredTrial().differencesUm(seed, laid));
      }
      List<Double> sizes =
          chain.all(progress.watching("decentred pairs", work)).stream()
              .flatMap(List::stream)
              .map(Math::abs)
              .toList();
      long within = sizes.stream().filter(size -> size <= DECENTRED_BAR_UM).count();
      rows.add(
          List.of(
              laid ? "laid by vessels" : "each about its own pit",
              within + " of " + sizes.size(),
              Markdown.number(quantile(sizes, 0.5), 2),
              Markdown.number(quantile(sizes, 0.95), 2),
              Markdown.number(quantile(sizes, 1), 2)));
    }
    page.heading(2, "Decentred rescans")
        .paragraph(
            seeds.size()
                + " eyes, seeds from "
                + seeds.get(0)
                + ", scanned in the middle and again 0.5 mm beside it with a turn, tilt and motion"
                + " of their own (49 frames of 512 A-scans over 7.4 mm). True boundaries, so that"
                + " only place, motion and sampling differ. Size of the difference of the means of"
                + " ILM-BM in µm, over nine sectors and the total.")
        .table(List.of("how", "within 1.5 µm", "median", "95 of 100", "largest"), rows);
  }

  private List<RegistrationOutcome> batch(
      List<Long> seeds, List<Integer> strangers, List<Integer> taken) {
    List<RegistrationTrial> trials = seeds.stream().map(RegistrationTrial::new).toList();
    int tried = 0;
    int fooled = 0;
    for (int i = 0; i < trials.size(); i++) {
      for (int step = 1; step <= 2 && trials.size() > 2; step++) {
        tried++;
        fooled += trials.get((i + step) % trials.size()).takesForItself(trials.get(i)) ? 1 : 0;
      }
    }
    synchronized (strangers) {
      strangers.add(tried);
      taken.add(fooled);
    }
    return trials.stream().map(RegistrationTrial::laid).toList();
  }

  private static int sum(List<Integer> counts) {
    return counts.stream().mapToInt(Integer::intValue).sum();
  }

  private static List<List<String>> rows(
      List<RegistrationOutcome> outcomes, int strangers, int taken) {
    List<RegistrationOutcome> found = outcomes.stream().filter(RegistrationOutcome::found).toList();
    List<Double> circle = new ArrayList<>();
    List<Double> fovea = new ArrayList<>();
    int within = 0;
    for (RegistrationOutcome one : found) {
      circle.addAll(one.errorsUm());
      fovea.add(one.errorsUm().get(0));
      within += one.medianUm() <= one.halfSpacingUm() ? 1 : 0;
    }
    long wrong = found.stream().filter(RegistrationOutcome::wrong).count();
    double refused = 1 - (double) found.size() / outcomes.size();
    int half = found.size() / 2;
    List<List<String>> rows = new ArrayList<>();
    rows.add(row("at the fovea, median", quantile(fovea, 0.5), 10));
    rows.add(row("at the fovea, 99th percentile", quantile(fovea, 0.99), 40));
    rows.add(row("over the 6 mm circle, median", quantile(circle, 0.5), 10));
    rows.add(row("over the 6 mm circle, 99th percentile", quantile(circle, 0.99), 40));
    rows.add(
        List.of(
            "pairs whose median is within half an A-scan's distance",
            within + " of " + found.size(),
            "half of them",
            met(within >= half)));
    rows.add(List.of("wrong (median over 100 µm), yet accepted", "" + wrong, "0", met(wrong == 0)));
    rows.add(
        List.of(
            "another eye accepted for this one",
            taken + " of " + strangers,
            "0 in 500",
            met(taken == 0)));
    rows.add(
        List.of(
            "refused although one eye", Markdown.percent(refused, 1), "2 %", met(refused <= 0.02)));
    return rows;
  }

  private static List<String> row(String what, double um, double bar) {
    return List.of(
        what, Markdown.number(um, 1) + " µm", Markdown.number(bar, 0) + " µm", met(um <= bar));
  }

  private static String met(boolean yes) {
    return yes ? "yes" : "**no**";
  }

  private static void calibration(Markdown page, List<RegistrationOutcome> found) {
    List<Double> ratio = new ArrayList<>();
    for (RegistrationOutcome one : found) {
      ratio.add(one.rootMeanSquareUm() / one.statedSdUm());
    }
    page.paragraph(
        "The standard deviation that registration states of itself against the error's root mean"
            + " square along each axis: the error is "
            + Markdown.number(quantile(ratio, 0.5), 2)
            + " times what is stated in the median pair, "
            + Markdown.number(quantile(ratio, 0.95), 2)
            + " times in the 95th of 100.");
  }

  private static double quantile(List<Double> values, double share) {
    List<Double> sorted = values.stream().sorted().toList();
    int at = (int) Math.min(sorted.size() - 1.0, Math.floor(share * sorted.size()));
    return sorted.isEmpty() ? Double.NaN : sorted.get(at);
  }
}

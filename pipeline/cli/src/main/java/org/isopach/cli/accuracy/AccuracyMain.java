package org.isopach.cli.accuracy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.cli.accuracy.nerve.NervePart;
import org.isopach.cli.accuracy.nerve.NerveStudy;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomVersion;
import org.isopach.report.Cautions;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code accuracy}: errors of the whole chain on phantoms of known truth. */
@Command(
    name = "accuracy",
    description =
        "Renders phantom eyes, measures them and prints the errors against the truth, as Markdown.",
    mixinStandardHelpOptions = true,
    footer = {"", Cautions.LINE})
public final class AccuracyMain implements Callable<Integer> {
  private static final int QUICK_HEALTHY = 4;
  private static final int QUICK_SICK = 2;
  private static final int QUICK_TORTURE = 20;
  private static final int DECENTRED = 20;
  private static final long TORTURE_SEED = 45000;

  @Spec private CommandSpec spec;

  @Option(
      names = "--seeds",
      paramLabel = "FROM..TO",
      defaultValue = "42100..42149",
      converter = SeedRange.Converter.class,
      description = "One healthy eye for each seed (default: ${DEFAULT-VALUE}).")
  private SeedRange healthy;

  @Option(
      names = "--sick-seeds",
      paramLabel = "FROM..TO",
      defaultValue = "41100..41109",
      converter = SeedRange.Converter.class,
      description =
          "One eye for each seed and each condition but the healthy one (default:"
              + " ${DEFAULT-VALUE}).")
  private SeedRange sick;

  @Option(
      names = "--torture",
      paramLabel = "N",
      defaultValue = "1000",
      description = "Scans of random parameters, extremes included (default: ${DEFAULT-VALUE}).")
  private int torture;

  @Option(
      names = "--only",
      paramLabel = "PART",
      split = ",",
      description = "Only these parts: ${COMPLETION-CANDIDATES}.")
  private Set<Part> parts = EnumSet.allOf(Part.class);

  @Option(
      names = "--change",
      description = "Only whether the uncertainty of a change is right; a page of its own.")
  private boolean change;

  @Option(
      names = "--registration",
      paramLabel = "FROM..TO",
      converter = SeedRange.Converter.class,
      description = "Only how well visits are laid on one another; a page of its own.")
  private SeedRange registration;

  @Option(
      names = "--nerve",
      paramLabel = "FROM..TO",
      converter = SeedRange.Converter.class,
      description = "Only how right the optic nerve's figures are; a page of its own.")
  private SeedRange nerve;

  @Option(
      names = "--nerve-only",
      paramLabel = "PART",
      split = ",",
      description = "Of --nerve only these parts: ${COMPLETION-CANDIDATES}.")
  private Set<NervePart> nerveParts = EnumSet.allOf(NervePart.class);

  @Option(names = "--quick", description = "Only the first eyes, to see whether all works.")
  private boolean quick;

  @Option(names = "--out", paramLabel = "FILE", description = "Also write the page to this file.")
  private Path out;

  @Option(
      names = "--plot",
      paramLabel = "FILE.png",
      description = "Also draw how often depths are right, by confidence.")
  private Path plot;

  @Option(
      names = "--threads",
      paramLabel = "N",
      defaultValue = "2",
      description = "Scans worked on at a time (default: ${DEFAULT-VALUE}).")
  private int threads;

  /** Runs the command and ends the process. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    CommandLine line = new CommandLine(new AccuracyMain());
    System.exit(line.setCaseInsensitiveEnumValuesAllowed(true).execute(args));
  }

  @Override
  public Integer call() throws Exception {
    if (registration != null) {
      return print(registrationPage());
    }
    if (nerve != null) {
      Progress progress = new Progress(spec.commandLine().getErr());
      int eyes = nerve.seeds().size();
      return print(
          NerveStudy.page(
              nerve.from(), eyes, EnumSet.copyOf(nerveParts), quick, threads, progress));
    }
    if (change) {
      return print(changePage());
    }
    Markdown page = new Markdown();
    page.heading(1, "Accuracy on the eye phantom").paragraph(preface());
    Progress progress = new Progress(spec.commandLine().getErr());
    try (Chain chain = new Chain(threads, LayerCatalogue.WHOLE_RETINA)) {
      if (parts.contains(Part.CONDITIONS)) {
        conditions(page, new ConditionStudy(chain, progress));
      }
      if (parts.contains(Part.TORTURE) && torture > 0) {
        torture(page, progress);
      }
      if (parts.contains(Part.HEALTHY)) {
        HealthyPage.run(new Experiments(chain, progress), some(healthy, QUICK_HEALTHY)).addTo(page);
      }
    }
    return print(page);
  }

  private Markdown registrationPage() throws InterruptedException {
    Markdown page = new Markdown();
    page.heading(1, "How well visits are laid on one another, on the eye phantom")
        .paragraph(
            "Written by `bin/accuracy --registration`; do not edit. Phantom "
                + PhantomVersion.CURRENT
                + ". Thresholds were chosen on seeds 800 to 823. A phantom is not a patient: real"
                + " vessels, choroids and motions vary in ways that these do not.");
    try (Chain chain = new Chain(threads, LayerCatalogue.WHOLE_RETINA)) {
      RegistrationStudy study =
          new RegistrationStudy(chain, new Progress(spec.commandLine().getErr()));
      List<Long> seeds = some(registration, QUICK_HEALTHY);
      study.addTo(page, seeds);
      study.addDecentred(page, seeds.subList(0, Math.min(DECENTRED, seeds.size())));
    }
    return page;
  }

  private Markdown changePage() throws InterruptedException {
    Markdown page = new Markdown();
    page.heading(1, "How sure a change is, on the eye phantom")
        .paragraph(
            "Written by `bin/accuracy --change`; do not edit. Phantom "
                + PhantomVersion.CURRENT
                + ". What the figures mean is in [measurements.md](measurements.md). A phantom is"
                + " not a patient: real eyes vary in ways that these do not.");
    try (Chain chain = new Chain(threads, PhantomChange.layers())) {
      Progress progress = new Progress(spec.commandLine().getErr());
      new ChangeStudy(chain, progress).addTo(page, quick);
    }
    return page;
  }

  private int print(Markdown page) throws IOException {
    page.paragraph(Cautions.LINE);
    spec.commandLine().getOut().print(page);
    spec.commandLine().getOut().flush();
    if (out != null) {
      Files.writeString(out, page.toString(), StandardCharsets.UTF_8);
    }
    return 0;
  }

  private void conditions(Markdown page, ConditionStudy study)
      throws IOException, InterruptedException {
    List<Long> healthyEyes = some(healthy, QUICK_HEALTHY);
    List<Long> sickEyes = some(sick, QUICK_SICK);
    List<ConditionResult> results = study.run(sickEyes, healthyEyes);
    page.heading(2, "Conditions")
        .paragraph(
            "One thing wrong at a time (see [phantom.md](phantom.md)), "
                + sickEyes.size()
                + " eyes each from seed "
                + sickEyes.get(0)
                + "; healthy: "
                + healthyEyes.size()
                + " eyes from seed "
                + healthyEyes.get(0)
                + ". 25 frames of 512 A-scans and 496 depths over 6 x 6 mm at 3.87 µm.");
    ConditionBars.addTo(page, results);
    new ConditionTables(page, results).addAll();
    ConfidenceTables confidence = new ConfidenceTables(page, results);
    confidence.addAll();
    if (plot != null) {
      ReliabilityPlot.write(plot, confidence);
    }
  }

  /** All layers are mapped here, so that all of them are tortured. */
  private void torture(Markdown page, Progress progress) throws InterruptedException {
    int count = quick ? Math.min(torture, QUICK_TORTURE) : torture;
    try (Chain chain = new Chain(threads, LayerCatalogue.ALL)) {
      TortureStudy.addTo(page, new TortureStudy(chain, progress).run(TORTURE_SEED, count));
    }
  }

  private List<Long> some(SeedRange range, int few) {
    List<Long> seeds = range.seeds();
    return quick ? seeds.subList(0, Math.min(few, seeds.size())) : seeds;
  }

  private static String preface() {
    return "Written by `bin/accuracy`; do not edit. Phantom "
        + PhantomVersion.CURRENT
        + ". Training used seeds 900000 to 999999, development those from 800000 on; eyes of the"
        + " default seeds were not looked at before the page was first written. Truth is the"
        + " anatomical interface (see [phantom.md](phantom.md)). Errors are found depth minus true"
        + " depth. Intervals are percentile bootstrap over eyes; a dash stands for no value. A"
        + " phantom is not a patient: a real, diseased eye can be harder than any of these.";
  }
}

package org.isopach.cli.accuracy;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
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
  private static final int QUICK_EYES = 6;
  private static final int MIRRORED_EYES = 3;
  private static final int LARGE_SCANS = 2;

  @Spec private CommandSpec spec;

  @Option(
      names = "--seeds",
      paramLabel = "FROM..TO",
      defaultValue = "3000..3049",
      converter = SeedRange.Converter.class,
      description = "One eye for each seed (default: ${DEFAULT-VALUE}).")
  private SeedRange seeds;

  @Option(names = "--quick", description = "Only the first 6 eyes, and fewer of everything else.")
  private boolean quick;

  @Option(names = "--out", paramLabel = "FILE", description = "Also write the page to this file.")
  private Path out;

  @Option(
      names = "--threads",
      paramLabel = "N",
      defaultValue = "2",
      description = "Scans worked on at a time (default: ${DEFAULT-VALUE}).")
  private int threads;

  /** Runs the command and ends the process. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(new CommandLine(new AccuracyMain()).execute(args));
  }

  @Override
  public Integer call() throws Exception {
    List<Long> eyes = seeds.seeds();
    if (quick) {
      eyes = eyes.subList(0, Math.min(QUICK_EYES, eyes.size()));
    }
    int changes = (eyes.size() + 1) / 2;
    int varied = Math.min(eyes.size(), Math.max(2, eyes.size() / 8));
    PrintWriter err = spec.commandLine().getErr();
    String page;
    try (Chain chain = new Chain(threads)) {
      Experiments experiments = new Experiments(chain, err);
      page =
          page(
              experiments.eyes(eyes, changes),
              experiments.conditions(eyes.subList(0, varied), quick ? 1 : LARGE_SCANS),
              experiments.mirrors(eyes.subList(0, Math.min(MIRRORED_EYES, eyes.size()))));
    }
    spec.commandLine().getOut().print(page);
    spec.commandLine().getOut().flush();
    if (out != null) {
      Files.writeString(out, page, StandardCharsets.UTF_8);
    }
    return 0;
  }

  private String page(
      List<EyeStudy> eyes, List<ConditionScore> conditions, List<MirrorTrial.Difference> mirrors) {
    Markdown page = new Markdown();
    page.heading(1, "Accuracy on the eye phantom").paragraph(preface(eyes));
    page.heading(2, "Bars");
    Bars.addTo(page, eyes, mirrors);
    page.paragraph(
        "A worst figure is the worst single number of all eyes. Intervals are percentile bootstrap"
            + " over eyes.");
    List<ScanScore> scores = eyes.stream().map(EyeStudy::score).toList();
    Details details = new Details(page);
    details.boundaries(scores);
    page.heading(2, "Sectors")
        .paragraph("Mean of the table minus true mean about the true fovea, in µm.");
    details.places(PlaceErrors.ofScores(scores), Bars.SECTOR_UM);
    details.centred(scores);
    details.fovea(scores);
    details.conditions(conditions);
    changes(page, details, eyes);
    details.confidence(scores);
    page.paragraph(Cautions.LINE);
    return page.toString();
  }

  private static void changes(Markdown page, Details details, List<EyeStudy> eyes) {
    List<EyeStudy> changed = eyes.stream().filter(eye -> !eye.rescan().isEmpty()).toList();
    page.heading(2, "No change")
        .paragraph(
            changed.size()
                + " eyes scanned again without any change of the eye: other place, tilt, motion,"
                + " brightness and speckle. Change found, in µm.");
    details.places(PlaceErrors.of(changed.stream().map(EyeStudy::rescan).toList()), Bars.RESCAN_UM);
    page.heading(2, "Known swelling")
        .paragraph(
            "The same eyes scanned again with a swelling 60 to 200 µm high, 1.2 to 2.4 mm wide at"
                + " half height, within 1 mm of the fovea, a fifth of it cysts. Change found minus"
                + " true change, in µm.");
    details.places(
        PlaceErrors.of(changed.stream().map(EyeStudy::swelling).toList()), Bars.SWELLING_UM);
    List<String> refusals = changed.stream().flatMap(eye -> eye.refusals().stream()).toList();
    page.paragraph("Changes refused altogether: " + refusals.size() + ".");
    refusals.forEach(why -> page.paragraph("- " + why));
  }

  private String preface(List<EyeStudy> eyes) {
    return "Written by `bin/accuracy`; do not edit. Phantom "
        + PhantomVersion.CURRENT
        + ", "
        + eyes.size()
        + " eyes from seed "
        + eyes.get(0).score().seed()
        + ", none of them used in tuning, scanned with 49 frames of 512 A-scans and 496 depths over"
        + " 6 x 6 mm at 3.87 µm. Truth is the anatomical interface (see [phantom.md](phantom.md))."
        + " A healthy phantom is easier than a diseased eye: these errors are a lower bound of those"
        + " in patients.";
  }
}

package org.isopach.cli.accuracy;

import java.util.List;
import java.util.Objects;
import org.isopach.cli.page.Markdown;

/**
 * The part of the page about healthy eyes.
 *
 * @param eyes what was done with each eye
 * @param variations the first eyes with one thing changed
 * @param mirrors how much eyes differ from their mirror images
 */
record HealthyPage(
    List<EyeStudy> eyes, List<VariationScore> variations, List<MirrorTrial.Difference> mirrors) {
  private static final int MIRRORED_EYES = 3;
  private static final int EYES_PER_VARIED = 8;
  private static final int LARGE_SCANS = 2;

  HealthyPage {
    eyes = List.copyOf(eyes);
    variations = List.copyOf(variations);
    mirrors = List.copyOf(mirrors);
    Objects.checkIndex(0, eyes.size());
  }

  /** Renders and measures; half of the eyes are scanned again, an eighth of them varied. */
  static HealthyPage run(Experiments experiments, List<Long> seeds) throws InterruptedException {
    int varied = Math.min(seeds.size(), Math.max(2, seeds.size() / EYES_PER_VARIED));
    return new HealthyPage(
        experiments.eyes(seeds, (seeds.size() + 1) / 2),
        experiments.variations(seeds.subList(0, varied), Math.min(varied / 2, LARGE_SCANS)),
        experiments.mirrors(seeds.subList(0, Math.min(MIRRORED_EYES, seeds.size()))));
  }

  void addTo(Markdown page) {
    page.heading(2, "Healthy eyes in full density")
        .paragraph(
            eyes.size()
                + " eyes from seed "
                + eyes.get(0).score().seed()
                + ", scanned with 49 frames of 512 A-scans and 496 depths over 6 x 6 mm at 3.87"
                + " µm.");
    Bars.addTo(page, eyes, mirrors);
    page.paragraph("A worst figure is the worst single number of all eyes.");
    List<ScanScore> scores = eyes.stream().map(EyeStudy::score).toList();
    Details details = new Details(page);
    details.boundaries(scores);
    page.heading(3, "Sectors")
        .paragraph("Mean of the table minus true mean about the true fovea, in µm.");
    details.places(PlaceErrors.ofScores(scores), Bars.SECTOR_UM);
    details.centred(scores);
    details.fovea(scores);
    details.variations(variations);
    changes(page, details);
  }

  private void changes(Markdown page, Details details) {
    List<EyeStudy> changed = eyes.stream().filter(eye -> !eye.rescan().isEmpty()).toList();
    page.heading(3, "No change")
        .paragraph(
            changed.size()
                + " eyes scanned again without any change of the eye: other place, tilt, motion,"
                + " brightness and speckle. Change found, in µm.");
    details.places(PlaceErrors.of(changed.stream().map(EyeStudy::rescan).toList()), Bars.RESCAN_UM);
    page.heading(3, "Known swelling")
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
}

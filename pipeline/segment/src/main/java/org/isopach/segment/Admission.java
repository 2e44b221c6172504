package org.isopach.segment;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;

/**
 * Whether a scan that was read shows a retina that may be measured.
 *
 * @param admitted whether it may
 * @param findings frames that could not be read, and why the scan is refused
 */
record Admission(boolean admitted, List<Finding> findings) {
  private static final float LEAST_SCORE = 0.55f;
  private static final float UPSIDE_DOWN_LEAD = 0.05f;
  private static final float BRIGHTER_IN_FRONT = 0.03f;

  Admission {
    findings = List.copyOf(findings);
  }

  /** Looks at a scan. */
  static Admission of(LoadedScan loaded) {
    List<Finding> findings = new ArrayList<>();
    noteUnreadable(loaded, findings);
    InputClassifier input = new InputClassifier(loaded);
    Optional<Finding> refusal = input.beforeSearch();
    boolean usable = loaded.usableFrames().length > 0;
    if (refusal.isEmpty() && usable) {
      RetinaLook look = RetinaLook.at(loaded);
      refusal = refusal(loaded, look).or(() -> input.afterLook(look.innerPaths()));
    }
    refusal.ifPresent(findings::add);
    return new Admission(usable && refusal.isEmpty(), findings);
  }

  private static void noteUnreadable(LoadedScan loaded, List<Finding> findings) {
    if (loaded.unreadable().isEmpty()) {
      return;
    }
    String which =
        loaded.unreadable().keySet().stream().map(String::valueOf).collect(Collectors.joining(" "));
    String reason = loaded.unreadable().values().iterator().next();
    FindingKind kind =
        loaded.unreadable().size() == loaded.frames()
            ? FindingKind.UNREADABLE_FILE
            : FindingKind.FRAMES_UNREADABLE;
    findings.add(finding(loaded.scan(), kind, "frames " + which + " not decoded: " + reason));
  }

  private static Optional<Finding> refusal(LoadedScan loaded, RetinaLook look) {
    if (look.brighterInFront() > BRIGHTER_IN_FRONT && look.upsideDownLead() > UPSIDE_DOWN_LEAD) {
      return Optional.of(
          finding(
              loaded.scan(),
              FindingKind.UPSIDE_DOWN,
              "the frames look like a retina with the choroid at the top"));
    }
    if (look.score() < LEAST_SCORE) {
      return Optional.of(
          finding(
              loaded.scan(),
              FindingKind.NO_RETINA,
              String.format(
                  Locale.ROOT,
                  "evidence for a retina is %.2f, %.2f is needed",
                  look.score(),
                  LEAST_SCORE)));
    }
    return Optional.empty();
  }

  private static Finding finding(OctScan scan, FindingKind kind, String detail) {
    return new Finding(kind, scan.document().location(), detail);
  }
}

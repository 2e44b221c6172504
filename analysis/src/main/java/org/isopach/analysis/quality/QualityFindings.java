package org.isopach.analysis.quality;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;

/** Says what is lacking in a scan whose boundaries were found; nothing lacking is kept silent. */
public final class QualityFindings {
  private QualityFindings() {}

  /**
   * Returns what there is to say about a scan, in a fixed order.
   *
   * @param subject the scan, as findings name it
   */
  public static List<Finding> of(ScanQuality quality, QualityRules rules, String subject) {
    List<Finding> findings = new ArrayList<>();
    addSignal(findings, quality, rules, subject);
    addFrames(findings, quality, FrameState.DARK, FindingKind.DARK_FRAMES, subject);
    addShare(
        findings,
        quality.cutOff(),
        rules.mostCutOff(),
        FindingKind.RETINA_CUT_OFF,
        "the retina leaves the frame in %.1f %% of the A-scans",
        subject);
    addShare(
        findings,
        quality.mirrored(),
        rules.mostMirrored(),
        FindingKind.MIRROR_IMAGE,
        "a folded image lies over %.1f %% of the A-scans, which have no depths",
        subject);
    addMotion(findings, quality, rules, subject);
    addDecentration(findings, quality, rules, subject);
    return findings;
  }

  private static void addSignal(
      List<Finding> findings, ScanQuality quality, QualityRules rules, String subject) {
    addFrames(findings, quality, FrameState.LOW_SIGNAL, FindingKind.LOW_SIGNAL_FRAMES, subject);
    OptionalDouble median = quality.signalToNoiseDb();
    if (median.isPresent() && median.getAsDouble() < rules.lowScanDb()) {
      findings.add(
          finding(
              FindingKind.LOW_SIGNAL,
              subject,
              "median signal to noise of the greys is %.1f dB, below %.1f",
              median.getAsDouble(),
              rules.lowScanDb()));
    }
  }

  private static void addFrames(
      List<Finding> findings,
      ScanQuality quality,
      FrameState state,
      FindingKind kind,
      String subject) {
    if (quality.count(state) == 0) {
      return;
    }
    String which =
        quality.frames().stream()
            .filter(frame -> frame.state() == state)
            .map(frame -> String.valueOf(frame.frame()))
            .collect(Collectors.joining(" "));
    findings.add(new Finding(kind, subject, "frames " + which + " have no depths"));
  }

  private static void addShare(
      List<Finding> findings,
      OptionalDouble share,
      double most,
      FindingKind kind,
      String words,
      String subject) {
    if (share.isPresent() && share.getAsDouble() > most) {
      findings.add(finding(kind, subject, words, 100 * share.getAsDouble()));
    }
  }

  private static void addMotion(
      List<Finding> findings, ScanQuality quality, QualityRules rules, String subject) {
    String which =
        quality.frames().stream()
            .filter(frame -> frame.motionStepUm().isPresent())
            .filter(frame -> Math.abs(frame.motionStepUm().getAsDouble()) > rules.motionStepUm())
            .map(frame -> String.valueOf(frame.frame()))
            .collect(Collectors.joining(" "));
    if (!which.isEmpty()) {
      findings.add(
          finding(
              FindingKind.MOTION_STEPS,
              subject,
              "axial steps of up to %.0f µm at frames " + which,
              quality.largestMotionStepUm().orElseThrow()));
    }
  }

  private static void addDecentration(
      List<Finding> findings, ScanQuality quality, QualityRules rules, String subject) {
    if (quality.decentrationMm().isPresent()
        && quality.decentrationMm().getAsDouble() > rules.decentredMm()
        && quality.foveaToEdgeMm().getAsDouble() < rules.reachMm()) {
      findings.add(
          finding(
              FindingKind.DECENTRED,
              subject,
              "the fovea lies %.2f mm from the middle and %.2f mm from the side of the scan",
              quality.decentrationMm().getAsDouble(),
              quality.foveaToEdgeMm().getAsDouble()));
    }
  }

  private static Finding finding(
      FindingKind kind, String subject, String words, Object... figures) {
    return new Finding(kind, subject, String.format(Locale.ROOT, words, figures));
  }
}

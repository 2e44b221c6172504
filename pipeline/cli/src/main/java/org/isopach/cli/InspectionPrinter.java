package org.isopach.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.job.FolderInspection;
import org.isopach.job.FolderInspection.DerivedFacts;
import org.isopach.job.FolderInspection.HeldFacts;
import org.isopach.job.FolderInspection.MapFacts;
import org.isopach.job.FolderInspection.ScanFacts;
import org.isopach.report.Cautions;

/** Prints what is in a folder: by patient, eye, visit and scan, then what was left out and why. */
final class InspectionPrinter {
  private final PrintWriter out;
  private final boolean verbose;
  private String patient;
  private String eye;
  private String study;

  InspectionPrinter(PrintWriter out, boolean verbose) {
    this.out = out;
    this.verbose = verbose;
  }

  void print(FolderInspection found) {
    out.println(
        found.filesSeen()
            + " files: "
            + found.scans().size()
            + " scans, "
            + found.maps().size()
            + " thickness maps, "
            + found.derived().stream().filter(one -> !one.map()).count()
            + " other results");
    for (ScanFacts scan : found.scans()) {
      heading(scan.patientId(), scan.laterality(), scan.studyUid(), scan.acquired());
      scan(scan);
    }
    for (MapFacts map : found.maps()) {
      heading(map.patientId(), map.laterality(), map.studyUid(), map.acquired());
      out.println(
          PlainText.of("      thickness map " + map.sopUid() + " (" + map.location() + ")"));
      out.printf(
          Locale.ROOT,
          "        %s, %d x %d cells of %.4f mm; its sectors can be measured%n",
          map.layer(),
          map.rows(),
          map.columns(),
          map.stepMm());
      found.derived().stream()
          .filter(one -> one.map() && one.location().equals(map.location()))
          .forEach(this::beside);
    }
    for (DerivedFacts one : found.derived()) {
      if (found.maps().stream().noneMatch(map -> map.location().equals(one.location()))) {
        derived(one);
      }
    }
    leftOut(found);
    out.println();
    out.println(Cautions.LINE);
  }

  private void heading(String patientId, String side, String studyUid, String acquired) {
    if (!patientId.equals(patient)) {
      out.println();
      out.println("Patient " + (patientId.isEmpty() ? "(no id)" : PlainText.of(patientId)));
      patient = patientId;
      eye = null;
    }
    if (!side.equals(eye)) {
      String word = Laterality.ofCode(side).map(Laterality::word).orElse("unknown");
      out.println("  " + word + " eye");
      eye = side;
      study = null;
    }
    if (!studyUid.equals(study)) {
      String day = acquired.isEmpty() ? "date not stated" : acquired.substring(0, 10);
      out.println("    visit " + day + ", study " + PlainText.of(studyUid));
      study = studyUid;
    }
  }

  private void scan(ScanFacts scan) {
    out.println(PlainText.of("      scan " + scan.sopUid() + " (" + scan.location() + ")"));
    StringBuilder line = new StringBuilder("        ");
    line.append(scan.pattern().isEmpty() ? "not placed" : scan.pattern());
    line.append(
        String.format(
            Locale.ROOT,
            ", %d frames x %d A-scans x %d depths of %.2f um",
            scan.frames(),
            scan.ascans(),
            scan.depths(),
            scan.depthUm()));
    if (scan.widthMm().isPresent()) {
      line.append(
          String.format(
              Locale.ROOT,
              "; %.2f x %.2f mm, A-scans every %.1f um",
              scan.widthMm().get(),
              scan.heightMm().orElseThrow(),
              1000 * scan.ascanSpacingMm().orElseThrow()));
    }
    scan.frameSpacingMm()
        .ifPresent(
            mm -> line.append(String.format(Locale.ROOT, ", frames every %.1f um", 1000 * mm)));
    out.println(line);
    out.println("        can be measured: " + measurable(scan));
    scan.obstacles().forEach(why -> out.println("        but: " + PlainText.of(why)));
  }

  private static String measurable(ScanFacts scan) {
    if (scan.nerveProfile()) {
      return "boundaries, nerve fibre profile and its change ('isopach nerve', compare, series)";
    }
    String macula = scan.grid() ? "boundaries, maps, sectors, change" : "boundaries";
    if (scan.nerveVolume()) {
      return macula + "; the optic disc if it is in view ('isopach nerve', compare, series)";
    }
    return scan.grid() ? macula : macula + " only";
  }

  private void derived(DerivedFacts one) {
    heading(one.patientId(), one.laterality(), one.studyUid(), one.acquired());
    out.println(
        PlainText.of("      " + one.kind() + " " + one.sopUid() + " (" + one.location() + ")"));
    if (!one.software().isEmpty()) {
      out.println(PlainText.of("        by " + one.software()));
    }
    for (HeldFacts held : one.holds()) {
      String ours = held.ours().isEmpty() ? "nothing of ours" : "our " + held.ours();
      out.println(PlainText.of("        " + held.theirs() + ": " + ours));
    }
    beside(one);
  }

  private void beside(DerivedFacts one) {
    out.println(
        PlainText.of(
            one.obstacle().isEmpty()
                ? "        can be set beside the scan " + String.join(", ", one.scans())
                : "        cannot be set beside a scan: " + one.obstacle()));
  }

  private void leftOut(FolderInspection found) {
    Set<String> listed =
        found.scans().stream().map(ScanFacts::location).collect(Collectors.toSet());
    Set<String> derived =
        found.derived().stream().map(DerivedFacts::location).collect(Collectors.toSet());
    List<Finding> rest =
        found.findings().stream()
            .filter(finding -> !listed.contains(finding.subject()))
            .filter(
                finding ->
                    finding.kind() != FindingKind.DERIVED_OBJECT
                        || !derived.contains(finding.subject()))
            .toList();
    List<Finding> skipped =
        rest.stream().filter(one -> one.kind().gravity() == Gravity.SKIPPED).toList();
    if (!rest.isEmpty()) {
      out.println();
      out.println("Left out");
    }
    rest.stream()
        .filter(finding -> verbose || finding.kind().gravity() != Gravity.SKIPPED)
        .forEach(finding -> out.println("  " + PlainText.of(finding.sentence())));
    if (!verbose && !skipped.isEmpty()) {
      out.println("  " + skipped.size() + " files of other kinds; -v names them");
    }
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanDescription;

/**
 * What is in a folder and what can be measured in it, as far as can be told without decoding a
 * frame.
 *
 * @param filesSeen number of files looked at, of any kind
 * @param scans the tomographies by patient, eye and time
 * @param maps the thickness maps made elsewhere
 * @param derived what else says what somebody found in a scan; thickness maps are here too
 * @param findings what there is to say about other files, and about the objects listed
 */
public record FolderInspection(
    int filesSeen,
    List<ScanFacts> scans,
    List<MapFacts> maps,
    List<DerivedFacts> derived,
    List<Finding> findings) {

  /**
   * One tomography.
   *
   * @param laterality {@code R}, {@code L}, or empty when not known
   * @param acquired ISO 8601 local time, or empty when not stated
   * @param pattern figure of the frames in words, or empty when not placed
   * @param widthMm and {@code heightMm}: the smallest upright rectangle around the A-scans
   * @param frameSpacingMm mean distance between frames; empty for a single one
   * @param encoding transfer syntax UID
   * @param boundaries whether boundaries can be looked for
   * @param grid whether a map and a grid can be made
   * @param nerveProfile whether it is a circle of which the nerve fibre profile can be measured, by
   *     {@code nerve}, {@code compare} and {@code series}
   * @param nerveVolume whether the same may measure the disc or the ganglion cells in it, where it
   *     shows them: that is only known once frames are decoded
   * @param obstacles why not, in sentences
   */
  public record ScanFacts(
      String patientId,
      String laterality,
      String studyUid,
      String acquired,
      String sopUid,
      String location,
      String maker,
      String pattern,
      int frames,
      int ascans,
      int depths,
      Optional<Double> widthMm,
      Optional<Double> heightMm,
      Optional<Double> ascanSpacingMm,
      Optional<Double> frameSpacingMm,
      double depthUm,
      String encoding,
      boolean boundaries,
      boolean grid,
      boolean nerveProfile,
      boolean nerveVolume,
      List<String> obstacles) {}

  /** One thickness map made elsewhere. */
  public record MapFacts(
      String patientId,
      String laterality,
      String studyUid,
      String acquired,
      String sopUid,
      String location,
      String layer,
      int rows,
      int columns,
      double stepMm) {}

  /**
   * One object that says what somebody found in a scan.
   *
   * @param kind what it is, in words
   * @param map whether it is a thickness map
   * @param holds what it has values for
   * @param scans SOP Instance UIDs of the scans it can be set beside
   * @param matchedBy how they were matched; empty without one
   * @param obstacle why it cannot be set beside any; empty when it can
   */
  public record DerivedFacts(
      String patientId,
      String laterality,
      String studyUid,
      String acquired,
      String sopUid,
      String location,
      String kind,
      boolean map,
      String software,
      List<HeldFacts> holds,
      List<String> scans,
      String matchedBy,
      String obstacle) {}

  /**
   * One thing an object has values for.
   *
   * @param theirs in its own words and code
   * @param ours our name of the same; empty when we have none
   */
  public record HeldFacts(String theirs, String ours) {}

  public FolderInspection {
    scans = List.copyOf(scans);
    maps = List.copyOf(maps);
    derived = List.copyOf(derived);
    findings = List.copyOf(findings);
  }

  /** Looks at what was read. */
  public static FolderInspection of(FolderContents contents) {
    Map<String, List<Finding>> bySubject = new LinkedHashMap<>();
    for (Finding finding : contents.findings()) {
      bySubject.computeIfAbsent(finding.subject(), key -> new ArrayList<>()).add(finding);
    }
    List<ScanFacts> scans = new ArrayList<>();
    for (int i = 0; i < contents.scans().size(); i++) {
      OctScan scan = contents.scans().get(i);
      List<Finding> said = bySubject.getOrDefault(scan.document().location(), List.of());
      scans.add(facts(scan, contents.descriptions().get(i), said));
    }
    return new FolderInspection(
        contents.filesSeen(),
        scans,
        contents.maps().stream().map(FolderInspection::facts).toList(),
        derived(contents),
        contents.findings());
  }

  /** Returns what measuring this folder ends with, each scan by the command that can measure it. */
  public ExitStatus outlook() {
    boolean any = !maps.isEmpty() || scans.stream().anyMatch(ScanFacts::boundaries);
    ExitStatus status = ExitStatus.of(any, findings);
    boolean gap = scans.stream().anyMatch(scan -> !scan.grid() && !scan.nerveProfile());
    return status == ExitStatus.ALL_MEASURED && gap ? ExitStatus.SOME_NOT_MEASURED : status;
  }

  private static ScanFacts facts(OctScan scan, ScanDescription told, List<Finding> said) {
    ScanIdentity identity = scan.identity();
    Optional<ScanPath> path = scan.path();
    Optional<Finding> obstacle = GridObstacle.of(scan);
    boolean nerve = NerveObstacle.of(scan).isEmpty();
    boolean circle = nerve && NerveRun.isNerveOnly(scan);
    List<String> sentences = new ArrayList<>();
    for (Finding finding : said) {
      sentences.add(finding.detail() + "; " + finding.kind().advice());
    }
    obstacle
        .filter(one -> said.stream().noneMatch(earlier -> costs(earlier)))
        .ifPresent(
            one ->
                sentences.add(
                    circle
                        ? "no grid of the macula, which needs a volume over the fovea"
                        : one.detail() + "; " + one.kind().advice()));
    return new ScanFacts(
        identity.patientId(),
        scan.laterality().map(side -> side.code()).orElse(""),
        identity.studyUid(),
        identity.acquired().map(Object::toString).orElse(""),
        identity.sopUid(),
        scan.document().location(),
        (told.manufacturer() + " " + told.model()).strip(),
        path.map(one -> one.pattern().word()).orElse(""),
        scan.size().frames(),
        scan.size().ascans(),
        scan.size().depths(),
        path.map(one -> one.extent().xMm()),
        path.map(one -> one.extent().yMm()),
        path.map(ScanPath::ascanSpacingMm),
        path.filter(one -> one.frames() > 1).map(ScanPath::frameSpacingMm),
        scan.axial().micrometresPerPixel(),
        told.transferSyntaxUid(),
        true,
        obstacle.isEmpty(),
        circle,
        nerve && !circle,
        sentences);
  }

  private static boolean costs(Finding finding) {
    Gravity gravity = finding.kind().gravity();
    return gravity == Gravity.PARTLY_MEASURED || gravity == Gravity.NOT_MEASURED;
  }

  private static MapFacts facts(ThicknessMap map) {
    return new MapFacts(
        map.scan().patientId(),
        map.laterality().code(),
        map.scan().studyUid(),
        map.scan().acquired().map(Object::toString).orElse(""),
        map.scan().sopUid(),
        map.document().location(),
        map.layer().name(),
        map.lattice().rows(),
        map.lattice().columns(),
        map.lattice().stepMm());
  }

  private static List<DerivedFacts> derived(FolderContents contents) {
    SourceMatcher matcher = new SourceMatcher(contents.scans());
    return contents.derived().stream().map(one -> facts(one, matcher.match(one))).toList();
  }

  private static DerivedFacts facts(DerivedObject object, SourceMatcher.Match match) {
    ScanIdentity identity = object.identity();
    boolean none = object.holds().stream().allMatch(held -> held.ours().isEmpty());
    String obstacle = match.why().isEmpty() && none ? nothing(object.kind()) : match.why();
    return new DerivedFacts(
        identity.patientId(),
        object.eyes().size() == 1 ? object.eyes().iterator().next().code() : "",
        identity.studyUid(),
        identity.acquired().map(Object::toString).orElse(""),
        identity.sopUid(),
        object.location(),
        object.kind().words(),
        object.kind() == DerivedKind.THICKNESS_MAP,
        object.software(),
        object.holds().stream().map(held -> new HeldFacts(held.theirs(), held.ours())).toList(),
        match.scans().stream().map(scan -> scan.identity().sopUid()).toList(),
        match.way(),
        obstacle);
  }

  private static String nothing(DerivedKind kind) {
    return kind.comparable()
        ? "nothing in it has a definition of ours"
        : "it has no numbers to compare";
  }
}

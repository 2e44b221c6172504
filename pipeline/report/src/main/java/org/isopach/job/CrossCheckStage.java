package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.file.FileDigest;
import org.isopach.dicom.read.DerivedContents;
import org.isopach.dicom.read.MacularGridReport;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.PlacedMap;
import org.isopach.report.run.RunRecord;

/** Sets the objects of a folder beside its scans, one scan and one object at a time. */
final class CrossCheckStage {
  private static final Comparator<DerivedObject> ORDER =
      Comparator.comparing(DerivedObject::kind)
          .thenComparing(object -> object.identity().sopUid())
          .thenComparing(DerivedObject::location);

  private final CrossCheckRequest request;
  private final RunLedger ledger;
  private final SectorTabulator tabulator = new SectorTabulator();
  private final RegionVolumes volumes;
  private final Map<DerivedObject, SourceMatcher.Match> matches = new LinkedHashMap<>();
  private final List<CrossLine> lines = new ArrayList<>();
  private final Set<String> compared = new HashSet<>();
  private final ChangeStage changes;

  CrossCheckStage(
      CrossCheckRequest request, FolderContents contents, ScanComparer comparer, RunLedger ledger) {
    this.changes = new ChangeStage(request, comparer);
    this.request = request;
    this.ledger = ledger;
    this.volumes = new RegionVolumes(request.job(), tabulator);
    SourceMatcher matcher = new SourceMatcher(contents.scans());
    contents.derived().stream()
        .filter(object -> object.kind().comparable())
        .sorted(ORDER)
        .forEach(object -> matches.put(object, matcher.match(object)));
  }

  /** Returns the lines so far: scan by scan, then what has no scan. */
  List<CrossLine> lines() {
    return lines;
  }

  /** Compares everything that was made of a scan. */
  void compare(MeasuredScan scan) throws InterruptedException {
    compared.add(scan.scan().document().location());
    changes.next();
    for (DerivedObject object : of(scan.scan())) {
      CrossLines maker = maker(object, scan.scan());
      List<CrossLine> found;
      try {
        found = scan.measured() ? check(object, scan, maker) : notMeasured(object, scan.scan());
      } catch (ObjectDefect e) {
        found = List.of(maker.refused(whole(object), "it cannot be used: " + e.detail()));
      } catch (IllegalArgumentException | ArithmeticException e) {
        // Numbers that no attribute forbids and no map can have.
        found = List.of(maker.refused(whole(object), "it cannot be used: " + e.getMessage()));
      } catch (IOException e) {
        found = List.of(maker.refused(whole(object), "its file cannot be read"));
      }
      if (found.isEmpty() && !changes.waits(object)) {
        found = List.of(maker.refused(whole(object), "nothing in it is about this scan"));
      }
      if (!found.isEmpty()) {
        take(object, found);
      }
    }
  }

  /** Names what could not be compared because measuring the scan failed. */
  void missed(OctScan scan) {
    if (compared.contains(scan.document().location())) {
      return;
    }
    for (DerivedObject object : of(scan)) {
      take(object, notMeasured(object, scan));
    }
  }

  /** Names the objects that belong to no scan. */
  void unmatched() {
    matches.forEach(
        (object, match) -> {
          if (match.scans().isEmpty()) {
            CrossLines maker =
                new CrossLines(
                    object.identity(), object.eyes().stream().findFirst(), source(object, ""));
            take(object, List.of(maker.refused(whole(object), match.why())));
          }
        });
  }

  private List<DerivedObject> of(OctScan scan) {
    List<DerivedObject> objects = new ArrayList<>();
    matches.forEach(
        (object, match) -> {
          if (match.scans().contains(scan)) {
            objects.add(object);
          }
        });
    return objects;
  }

  private List<CrossLine> check(DerivedObject object, MeasuredScan scan, CrossLines maker)
      throws IOException, ObjectDefect, InterruptedException {
    DerivedContents contents = DerivedContents.of(object);
    if (contents instanceof DerivedContents.Reports reports) {
      List<CrossLine> found = new ArrayList<>();
      for (MacularGridReport eye : reports.eyes()) {
        if (object.eyes().contains(eye.laterality()) && object.sources().equals(eye.sources())) {
          found.addAll(new GridReportCheck(scan, maker).of(eye));
        }
      }
      return found;
    }
    if (contents instanceof DerivedContents.Surfaces surfaces) {
      return new HeightMapCheck(scan, maker).of(surfaces.surfaces());
    }
    if (contents instanceof DerivedContents.Masks masks) {
      return new RegionCheck(scan, maker, request, volumes).of(masks.masks());
    }
    return maps(object, scan, maker, ((DerivedContents.Maps) contents).maps());
  }

  private List<CrossLine> maps(
      DerivedObject object, MeasuredScan scan, CrossLines maker, List<PlacedMap> maps)
      throws InterruptedException {
    List<PlacedMap> change = changes.changes(maps);
    List<PlacedMap> rest = maps.stream().filter(map -> !change.contains(map)).toList();
    List<CrossLine> found = new ArrayList<>(new MapCheck(scan, maker, tabulator).of(rest));
    if (!change.isEmpty()) {
      List<OctScan> scans = matches.get(object).scans();
      found.addAll(changes.take(object, scans, scan, change, one -> maker(object, one)));
    }
    return found;
  }

  private void take(DerivedObject object, List<CrossLine> found) {
    lines.addAll(found);
    List<CrossLine> refused = found.stream().filter(line -> !line.verdict().comparable()).toList();
    boolean none = refused.size() == found.size();
    if (!refused.isEmpty()) {
      ledger.add(
          new Finding(
              none ? FindingKind.NOT_COMPARED_WITH_SCAN : FindingKind.LINES_NOT_COMPARED,
              object.location(),
              object.title() + ": " + sentence(refused, found.size())));
    }
    ledger.input(
        new RunRecord.Input(
            object.kind().code(),
            object.location(),
            digest(object),
            object.identity().patientId(),
            object.identity().studyUid(),
            object.identity().seriesUid(),
            object.identity().sopUid(),
            none ? "not-compared" : "compared"));
  }

  private static String sentence(List<CrossLine> refused, int of) {
    String reason = refused.get(0).verdict().reason();
    return of == 1
        ? reason
        : refused.size() + " of " + of + " lines not compared; the first: " + reason;
  }

  private static String digest(DerivedObject object) {
    try {
      return FileDigest.sha256(Path.of(object.location()));
    } catch (IOException e) {
      return "";
    }
  }

  private List<CrossLine> notMeasured(DerivedObject object, OctScan scan) {
    List<CrossLine> found = new ArrayList<>();
    found.add(maker(object, scan).refused(whole(object), "the scan was not measured"));
    found.addAll(
        changes.failed(object, matches.get(object).scans(), scan, one -> maker(object, one)));
    return found;
  }

  private CrossLines maker(DerivedObject object, OctScan scan) {
    return new CrossLines(
        scan.identity(), scan.laterality(), source(object, matches.get(object).way()));
  }

  private static CrossLine.Source source(DerivedObject object, String way) {
    return new CrossLine.Source(
        object.kind().code(), object.identity().sopUid(), object.software(), way, "");
  }

  /** What stands for everything an object holds. */
  private static Pair whole(DerivedObject object) {
    String theirs =
        String.join("; ", object.holds().stream().map(DerivedObject.Held::theirs).toList());
    return new Pair(theirs, "", "", Quantity.NONE);
  }
}

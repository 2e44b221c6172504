package org.isopach.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.align.EnFace;
import org.isopach.align.EnFaceMap;
import org.isopach.align.EnFaceProjector;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.derive.DerivedProvenance;
import org.isopach.dicom.derive.DerivedWriteResult;
import org.isopach.dicom.derive.DerivedWriters;
import org.isopach.dicom.derive.EnFacePicture;
import org.isopach.dicom.derive.HeightMapWriter;
import org.isopach.dicom.derive.MacularGridReportWriter;
import org.isopach.dicom.derive.MicrometreMap;
import org.isopach.dicom.derive.SurfaceReference;
import org.isopach.dicom.file.FileDigest;
import org.isopach.report.Software;

/** Writes what the standard has beside thickness maps: grid reports, height maps, regions, maps. */
final class DerivedFiles {
  private final DerivedWriters writers;
  private final RunFolder folder;
  private final Software software;
  private final ShadowStore shadows;

  /** Writes one object to a file whose folder exists. */
  private interface Writing {
    DerivedWriteResult to(Path target) throws IOException;
  }

  DerivedFiles(DerivedWriters writers, RunFolder folder, Software software, ShadowStore shadows) {
    this.shadows = shadows;
    this.writers = writers;
    this.folder = folder;
    this.software = software;
  }

  /** Returns the writing of everything a scan gives; what it does not give is no refusal. */
  List<FilePiece> of(MeasuredScan scan) {
    List<FilePiece> work = new ArrayList<>();
    for (MappedLayer layer : scan.layers()) {
      if (MacularGridReportWriter.defined(layer.table()) && layer.anyMeasured()) {
        work.add(new FilePiece(FileKind.GRID_REPORT, () -> grid(scan, layer.table())));
      }
    }
    scan.boundaries()
        .map(found -> new FilePiece(FileKind.HEIGHT_MAPS, () -> heights(scan.scan(), found)))
        .ifPresent(work::add);
    if (scan.place().isPresent()
        && scan.boundaries().orElseThrow().surface(Boundary.BM).isPresent()) {
      work.add(new FilePiece(FileKind.EN_FACE, () -> enFace(scan)));
    }
    if (!scan.labels().isEmpty()) {
      work.add(new FilePiece(FileKind.REGIONS, () -> regions(scan)));
    }
    return work;
  }

  /** Writes the map of a layer that the thickness map's code list lacks. */
  FileOutcome layer(MeasuredScan scan, ThicknessMap map) throws IOException {
    DerivedProvenance made = made(maps());
    double scale = scan.place().orElseThrow().lateralScale();
    return write(
        scan.scan(),
        map.layer().name(),
        target ->
            writers
                .parametricMaps()
                .write(MicrometreMap.of(map), scan.scan(), scale, made, target));
  }

  /**
   * Writes a change into the follow-up's study, in the coordinates it was made in: the baseline's
   * when the follow-up was moved there.
   */
  FileOutcome change(LaidPair laid, DifferenceMap change) throws IOException {
    MicrometreMap map = MicrometreMap.of(change);
    OctScan baseline = laid.baseline().scan();
    OctScan scan = laid.followUp().scan();
    MeasuredScan placed = laid.coordinates();
    double scale = placed.place().orElseThrow().lateralScale();
    DerivedProvenance made = made(laid(laid));
    return write(
        scan,
        change.followUp().layer().name() + "_change",
        target ->
            writers
                .parametricMaps()
                .write(map, scan, baseline, placed.scan(), scale, made, target));
  }

  /** Says the sign of a change, how the visits were laid on one another, and how surely. */
  private static String laid(LaidPair laid) {
    return String.format(
        Locale.ROOT,
        "follow-up minus baseline, visits laid by %s, place SD %.3f mm along each axis, %s, since"
            + " %s",
        laid.aligned().method().code(),
        laid.aligned().placeSdMm(),
        maps(),
        laid.baseline().scan().identity().sopUid());
  }

  private static String maps() {
    return String.format(
        Locale.ROOT,
        "lattice %s mm, confidence %s, gap %s mm",
        LayerMapper.STEP_MM,
        InterpolationRules.DEFAULT.minimumConfidence(),
        InterpolationRules.DEFAULT.maximumGapMm());
  }

  /** Writes the projection that visits are laid on one another by. */
  private FileOutcome enFace(MeasuredScan scan) throws IOException {
    MeasuredScan.Place place = scan.place().orElseThrow();
    BoundarySet boundaries = scan.boundaries().orElseThrow();
    Optional<EnFace> face = shadows.of(scan);
    if (face.isEmpty()) {
      return refused(scan.scan(), "en-face", "Bruch's membrane was found nowhere");
    }
    EnFaceMap map = EnFaceMap.of(face.get());
    EnFacePicture picture =
        new EnFacePicture(
            map.lattice(),
            map.origin(),
            new EnFacePicture.Slab(Boundary.BM, EnFaceProjector.FIRST_UM, EnFaceProjector.LAST_UM),
            EnFaceProjector.MOST,
            (row, column) -> -map.shadow(row, column));
    DerivedProvenance made =
        made(
            String.format(
                Locale.ROOT,
                "against the running mean of %s mm to either side, membrane's confidence %s",
                EnFaceProjector.SURROUNDINGS_MM,
                EnFaceProjector.LEAST_CONFIDENCE));
    SurfaceReference surface =
        HeightMapWriter.reference(
            boundaries, leastConfidence(), scan.scan(), heights(), Boundary.BM);
    return write(
        scan.scan(),
        "en-face",
        target ->
            writers
                .enFaces()
                .write(picture, surface, scan.scan(), place.lateralScale(), made, target));
  }

  /** Wraps a scan's report. */
  FileOutcome report(SetReport report) throws IOException {
    MeasuredScan scan = report.scan();
    byte[] pdf = report.pdf();
    String title = report.title();
    boolean grid =
        scan.layers().stream().anyMatch(one -> MacularGridReportWriter.written(one.table()));
    List<String> layers = scan.layers().stream().map(one -> one.map().layer().name()).toList();
    DerivedProvenance made =
        made(
            gridParameters(scan.layers().get(0).table(), scan.place().orElseThrow())
                + ", layers "
                + String.join(" ", layers));
    return write(
        scan.scan(),
        "report",
        target -> writers.documents().write(pdf, title, grid, scan.scan(), made, target));
  }

  private FileOutcome regions(MeasuredScan scan) throws IOException {
    DerivedProvenance made = made("regions searched: " + scan.labels().searched());
    return write(
        scan.scan(),
        "regions",
        target -> writers.regions().write(scan.labels(), scan.scan(), made, target));
  }

  private FileOutcome heights(OctScan scan, BoundarySet boundaries) throws IOException {
    return write(
        scan,
        "height-maps",
        target ->
            writers.heightMaps().write(boundaries, leastConfidence(), scan, heights(), target));
  }

  private DerivedProvenance heights() {
    return made(
        String.format(
            Locale.ROOT,
            "all boundaries found; no depth where the confidence is below %s",
            leastConfidence()));
  }

  /** Returns the confidence that an A-scan needs in maps, tables and height maps alike. */
  private static double leastConfidence() {
    return InterpolationRules.DEFAULT.minimumConfidence();
  }

  private FileOutcome grid(MeasuredScan scan, SectorTable table) throws IOException {
    DerivedProvenance made = made(gridParameters(table, scan.place().orElseThrow()));
    List<String> remarks = scan.findings().stream().map(DerivedFiles::words).toList();
    return write(
        scan.scan(),
        "grid-report",
        target -> writers.gridReports().write(table, scan.scan(), remarks, made, target));
  }

  private static String words(Finding finding) {
    return finding.kind().name().toLowerCase(Locale.ROOT).replace('_', '-')
        + ": "
        + finding.detail()
        + "; "
        + finding.kind().advice();
  }

  private FileOutcome write(OctScan scan, String name, Writing writing) throws IOException {
    Path target = folder.object(scan.identity().sopUid(), name);
    Files.createDirectories(target.getParent());
    DerivedWriteResult result = writing.to(target);
    if (result instanceof DerivedWriteResult.Written) {
      return FileOutcome.written(target, FileDigest.sha256(target));
    }
    return refused(scan, name, ((DerivedWriteResult.Refused) result).detail());
  }

  private static FileOutcome refused(OctScan scan, String name, String why) {
    return FileOutcome.refused(
        new Finding(FindingKind.OBJECT_REFUSED, scan.document().location(), name + ": " + why));
  }

  private DerivedProvenance made(String parameters) {
    return new DerivedProvenance(software.version(), parameters);
  }

  /** Everything that decides a report's content beside its source. */
  private static String gridParameters(SectorTable table, MeasuredScan.Place place) {
    return String.format(
        Locale.ROOT,
        "grid %s, centre %s at %.4f, %.4f mm, coverage %s, lattice %s mm, confidence %s, gap %s mm,"
            + " lateral scale %s",
        table.grid().name(),
        table.centre().source().code(),
        table.centre().point().xMm(),
        table.centre().point().yMm(),
        table.minimumCoverage(),
        LayerMapper.STEP_MM,
        InterpolationRules.DEFAULT.minimumConfidence(),
        InterpolationRules.DEFAULT.maximumGapMm(),
        place.lateralScale());
  }
}

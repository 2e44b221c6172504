package org.isopach.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.derive.DerivedProvenance;
import org.isopach.dicom.derive.DerivedWriteResult;
import org.isopach.dicom.derive.DerivedWriters;
import org.isopach.dicom.derive.MacularGridReportWriter;
import org.isopach.dicom.derive.MicrometreMap;
import org.isopach.report.Software;
import org.isopach.report.file.Sha256;

/** Writes what the standard has beside thickness maps: grid reports, height maps, regions, maps. */
final class DerivedFiles {
  private final DerivedWriters writers;
  private final RunFolder folder;
  private final Software software;

  /** Writes one object to a file whose folder exists. */
  private interface Writing {
    DerivedWriteResult to(Path target) throws IOException;
  }

  DerivedFiles(DerivedWriters writers, RunFolder folder, Software software) {
    this.writers = writers;
    this.folder = folder;
    this.software = software;
  }

  /** Returns the writing of everything a scan gives; what it does not give is no refusal. */
  List<Callable<FileOutcome>> of(MeasuredScan scan) {
    List<Callable<FileOutcome>> work = new ArrayList<>();
    for (MappedLayer layer : scan.layers()) {
      if (MacularGridReportWriter.defined(layer.table()) && layer.anyMeasured()) {
        work.add(() -> grid(scan, layer.table()));
      }
    }
    scan.boundaries().ifPresent(found -> work.add(() -> heights(scan.scan(), found)));
    if (!scan.labels().isEmpty()) {
      work.add(() -> regions(scan));
    }
    return work;
  }

  /** Writes the map of a layer that the thickness map's code list lacks. */
  FileOutcome layer(MeasuredScan scan, ThicknessMap map) throws IOException {
    return micrometres(scan, map.layer().name(), MicrometreMap.of(map), "");
  }

  /** Writes a change into the follow-up's study. */
  FileOutcome change(MeasuredScan followUp, DifferenceMap change) throws IOException {
    return micrometres(
        followUp,
        change.followUp().layer().name() + "_change",
        MicrometreMap.of(change),
        ", since " + change.baseline().scan().sopUid());
  }

  private FileOutcome micrometres(MeasuredScan scan, String name, MicrometreMap map, String more)
      throws IOException {
    DerivedProvenance made =
        made(
            String.format(
                Locale.ROOT,
                "lattice %s mm, confidence %s, gap %s mm%s",
                LayerMapper.STEP_MM,
                InterpolationRules.DEFAULT.minimumConfidence(),
                InterpolationRules.DEFAULT.maximumGapMm(),
                more));
    double scale = scan.place().orElseThrow().lateralScale();
    return write(
        scan.scan(),
        name,
        target -> writers.parametricMaps().write(map, scan.scan(), scale, made, target));
  }

  private FileOutcome regions(MeasuredScan scan) throws IOException {
    DerivedProvenance made = made("regions searched: " + scan.labels().searched());
    return write(
        scan.scan(),
        "regions",
        target -> writers.regions().write(scan.labels(), scan.scan(), made, target));
  }

  private FileOutcome heights(OctScan scan, BoundarySet boundaries) throws IOException {
    DerivedProvenance made = made("all boundaries found, whatever their confidence");
    return write(
        scan, "height-maps", target -> writers.heightMaps().write(boundaries, scan, made, target));
  }

  private FileOutcome grid(MeasuredScan scan, SectorTable table) throws IOException {
    DerivedProvenance made = made(gridParameters(table, scan.place().orElseThrow()));
    return write(
        scan.scan(),
        "grid-report",
        target -> writers.gridReports().write(table, scan.scan(), made, target));
  }

  private FileOutcome write(OctScan scan, String name, Writing writing) throws IOException {
    Path target = folder.object(scan.identity().sopUid(), name);
    Files.createDirectories(target.getParent());
    DerivedWriteResult result = writing.to(target);
    if (result instanceof DerivedWriteResult.Written) {
      return FileOutcome.written(target, Sha256.ofFile(target));
    }
    return FileOutcome.refused(
        new Finding(
            FindingKind.OBJECT_REFUSED,
            scan.document().location(),
            name + ": " + ((DerivedWriteResult.Refused) result).detail()));
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

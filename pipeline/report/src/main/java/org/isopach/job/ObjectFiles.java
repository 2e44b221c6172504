package org.isopach.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.derive.AcquisitionMethod;
import org.isopach.dicom.derive.MapProvenance;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.dicom.derive.OphthalmicThicknessMapWriter;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.file.FileDigest;
import org.isopach.report.Software;

/** Writes thickness map objects and says why one was refused. */
final class ObjectFiles {
  private final ThicknessMapWriter writer;
  private final RunFolder folder;
  private final Software software;
  private final ShadowStore shadows;

  /** Makes a writer that projects scans itself when an en face image is asked for. */
  ObjectFiles(ThicknessMapWriter writer, RunFolder folder, Software software) {
    this(writer, folder, software, new ShadowStore());
  }

  ObjectFiles(ThicknessMapWriter writer, RunFolder folder, Software software, ShadowStore shadows) {
    this.shadows = shadows;
    this.writer = writer;
    this.folder = folder;
    this.software = software;
  }

  /** Returns the writing of what else the standard has for a scan; none for a bare writer. */
  List<FilePiece> others(MeasuredScan scan) {
    return files().map(files -> files.of(scan)).orElse(List.of());
  }

  /** Returns the writing of the change of a layer; none for a bare writer. */
  List<FilePiece> change(LaidPair laid, ScanChange.LayerChange layer) {
    return files()
        .map(files -> new FilePiece(FileKind.CHANGE_MAP, () -> files.change(laid, layer.map())))
        .stream()
        .toList();
  }

  /** Returns the wrapping of a scan's report; empty for a bare writer. */
  Optional<FilePiece> wrapped(SetReport report) {
    return files().map(files -> new FilePiece(FileKind.WRAPPED_REPORT, () -> files.report(report)));
  }

  /** Returns the writing of a layer's map as whichever object the standard has for it. */
  FilePiece map(MeasuredScan scan, MappedLayer layer) {
    return files().isPresent() && !OphthalmicThicknessMapWriter.defined(layer.map().layer())
        ? new FilePiece(FileKind.LAYER_MAP, () -> files().orElseThrow().layer(scan, layer.map()))
        : new FilePiece(FileKind.THICKNESS_MAP, () -> write(scan, layer.map()));
  }

  private Optional<DerivedFiles> files() {
    return writer.others().map(others -> new DerivedFiles(others, folder, software, shadows));
  }

  private FileOutcome write(MeasuredScan scan, ThicknessMap map) throws IOException {
    return write(scan.scan(), map, scan.place().orElseThrow().lateralScale());
  }

  /**
   * Writes a map of a scan.
   *
   * @param lateralScale what its lengths were multiplied with against those the object states
   */
  FileOutcome write(OctScan scan, ThicknessMap map, double lateralScale) throws IOException {
    Path target = folder.object(scan.identity().sopUid(), map.layer());
    Files.createDirectories(target.getParent());
    MapWriteResult result = writer.write(map, scan, provenance(map, lateralScale), target);
    if (result instanceof MapWriteResult.Written) {
      return FileOutcome.written(target, FileDigest.sha256(target));
    }
    MapWriteResult.Refused refused = (MapWriteResult.Refused) result;
    return FileOutcome.refused(
        new Finding(
            FindingKind.OBJECT_REFUSED,
            scan.document().location(),
            map.layer().name() + ": " + refused.detail()));
  }

  /** Everything that decides the object's content beside its source. */
  private MapProvenance provenance(ThicknessMap map, double lateralScale) {
    String parameters =
        String.format(
            Locale.ROOT,
            "centre %s, lattice %s mm, confidence %s, gap %s mm, lateral scale %s",
            map.centre().source().code(),
            LayerMapper.STEP_MM,
            InterpolationRules.DEFAULT.minimumConfidence(),
            InterpolationRules.DEFAULT.maximumGapMm(),
            lateralScale);
    return new MapProvenance(
        software.version(), parameters, AcquisitionMethod.SPECTRAL_DOMAIN, lateralScale);
  }
}

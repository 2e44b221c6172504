package org.isopach.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
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
import org.isopach.report.Software;
import org.isopach.report.file.Sha256;

/** Writes thickness map objects and says why one was refused. */
final class ObjectFiles {
  private final ThicknessMapWriter writer;
  private final RunFolder folder;
  private final Software software;

  ObjectFiles(ThicknessMapWriter writer, RunFolder folder, Software software) {
    this.writer = writer;
    this.folder = folder;
    this.software = software;
  }

  /** Returns the writing of what else the standard has for a scan; none for a bare writer. */
  List<Callable<FileOutcome>> others(MeasuredScan scan) {
    return writer
        .others()
        .map(others -> new DerivedFiles(others, folder, software).of(scan))
        .orElse(List.of());
  }

  /** Returns the writing of the change of a layer; none for a bare writer. */
  List<Callable<FileOutcome>> change(MeasuredScan followUp, ScanChange.LayerChange layer) {
    return writer
        .others()
        .map(others -> new DerivedFiles(others, folder, software))
        .map(files -> List.<Callable<FileOutcome>>of(() -> files.change(followUp, layer.map())))
        .orElse(List.of());
  }

  FileOutcome write(MeasuredScan scan, MappedLayer layer) throws IOException {
    if (writer.others().isPresent() && !OphthalmicThicknessMapWriter.defined(layer.map().layer())) {
      DerivedFiles files = new DerivedFiles(writer.others().get(), folder, software);
      return files.layer(scan, layer.map());
    }
    return write(scan.scan(), layer.map(), scan.place().orElseThrow().lateralScale());
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
      return FileOutcome.written(target, Sha256.ofFile(target));
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

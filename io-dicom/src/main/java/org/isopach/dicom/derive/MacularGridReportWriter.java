package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.DerivedWriteResult.Reason;
import org.isopach.dicom.derive.DerivedWriteResult.Refused;
import org.isopach.dicom.derive.DerivedWriteResult.Written;

/**
 * Writes the sectors of a scan as a Macular Grid Thickness and Volume Report. Safe for several
 * threads.
 *
 * <p>Only of the layer and the grid that the report's codes are defined by: {@link Layer#ILM_RPE}
 * in circles of 1, 3 and 6 mm, round the fovea.
 */
public final class MacularGridReportWriter {
  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public MacularGridReportWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  /**
   * Returns whether the report's codes are of a table's layer and grid. Where the grid lies is left
   * to {@link #write}, which says why it refuses.
   */
  public static boolean defined(SectorTable table) {
    return table.layer().equals(Layer.ILM_RPE) && table.grid().equals(EtdrsGrids.ETDRS_1_3_6);
  }

  /** Returns whether a table is one that a report is written of. */
  public static boolean written(SectorTable table) {
    return defined(table)
        && table.centre().source().foveal()
        && table.sectors().stream().anyMatch(Measured.class::isInstance);
  }

  /**
   * Writes one report. The same arguments and source give the same bytes. A sector that was not
   * measured is in the report, without a value and with the reason.
   *
   * @param table the sectors of one eye
   * @param source the scan they were measured in
   * @param remarks what a reader of the numbers must know of the scan, each a sentence
   * @param provenance how
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      SectorTable table,
      OctScan source,
      List<String> remarks,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    if (!defined(table)) {
      return new Refused(
          Reason.WITHOUT_DEFINITION,
          "the report's codes are of ILM-RPE in circles of 1, 3 and 6 mm, not of "
              + table.layer().name()
              + " in "
              + table.grid().name());
    }
    if (!table.centre().source().foveal()) {
      return new Refused(
          Reason.WITHOUT_DEFINITION,
          "the report's codes are of a grid round the fovea, not round "
              + table.centre().source().code());
    }
    if (table.sectors().stream().noneMatch(Measured.class::isInstance)) {
      return new Refused(Reason.NO_VALUES, "no sector has a value");
    }
    if (!table.scan().equals(source.identity())
        || source.laterality().filter(table.laterality()::equals).isEmpty()) {
      return new Refused(Reason.NOT_OF_THIS_SCAN, "table and scan differ in identity or eye");
    }
    Dataset header = headers.header(source);
    Optional<Refused> obstacle = DerivedSource.obstacle(header, source);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    Dataset.Builder object = Dataset.builder();
    DerivedSource.addTo(object, header, provenance);
    MacularGridObject.addTo(object, table, source, header, remarks, provenance);
    Dataset dataset = object.build();
    writer.write(target, dataset, new byte[0]);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }
}

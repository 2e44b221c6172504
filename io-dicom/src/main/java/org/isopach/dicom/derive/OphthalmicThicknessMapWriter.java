package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.MapWriteResult.Reason;
import org.isopach.dicom.derive.MapWriteResult.Refused;
import org.isopach.dicom.derive.MapWriteResult.Written;

/** Writes maps as Ophthalmic Thickness Map objects, where the standard has a definition. */
public final class OphthalmicThicknessMapWriter implements ThicknessMapWriter {
  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public OphthalmicThicknessMapWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  @Override
  public MapWriteResult write(
      ThicknessMap map, OctScan source, MapProvenance provenance, Path target) throws IOException {
    Optional<ThicknessDefinition> definition = ThicknessDefinition.of(map.layer());
    if (definition.isEmpty()) {
      return new Refused(
          Reason.LAYER_WITHOUT_DEFINITION,
          "CID 4262 has no retinal thickness definition for " + map.layer().name());
    }
    Optional<Refused> unfit = unfit(map, source);
    if (unfit.isPresent()) {
      return unfit.get();
    }
    Dataset header = headers.header(source);
    Optional<Refused> incomplete = incomplete(header, source);
    if (incomplete.isPresent()) {
      return incomplete.get();
    }
    byte[] stored = StoredThickness.pixels(map);
    Dataset.Builder object = Dataset.builder();
    SourceCopy.addTo(object, header);
    MapObject.addTo(object, map, definition.get(), header, provenance, stored);
    MapPlacement.addTo(object, map, source, header, provenance.lateralScale());
    Dataset dataset = object.build();
    writer.write(target, dataset, stored);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  /** Returns whether the standard has a definition of a layer's thickness. */
  public static boolean defined(Layer layer) {
    return ThicknessDefinition.of(layer).isPresent();
  }

  @Override
  public Optional<DerivedWriters> others() {
    return Optional.of(DerivedWriters.of(headers, writer));
  }

  private static Optional<Refused> unfit(ThicknessMap map, OctScan source) {
    if (!map.scan().equals(source.identity())
        || source.laterality().filter(map.laterality()::equals).isEmpty()) {
      return refused(Reason.NOT_OF_THIS_SCAN, "map and scan differ in identity or eye");
    }
    int rows = map.lattice().rows();
    int columns = map.lattice().columns();
    if (rows > 0xffff || columns > 0xffff) {
      return refused(Reason.OUT_OF_RANGE, rows + " x " + columns + " cells are too many");
    }
    boolean any = false;
    for (int row = 0; row < rows; row++) {
      for (int column = 0; column < columns; column++) {
        float thickness = map.micrometres(row, column);
        if (!Float.isNaN(thickness) && !StoredThickness.fits(thickness)) {
          return refused(
              Reason.OUT_OF_RANGE, "cell " + row + ", " + column + " has " + thickness + " um");
        }
        any |= !Float.isNaN(thickness);
      }
    }
    return any ? Optional.empty() : refused(Reason.NO_VALUES, "no cell has a value");
  }

  private static Optional<Refused> incomplete(Dataset header, OctScan source) {
    List<String> lacking = SourceCopy.lacking(header);
    if (!lacking.isEmpty()) {
      return refused(
          Reason.SOURCE_INCOMPLETE, "the source object lacks " + String.join(", ", lacking));
    }
    String acquired = header.text(Tags.ACQUISITION_DATETIME).orElse("");
    if (!AcquiredAt.readable(acquired)) {
      return refused(Reason.SOURCE_INCOMPLETE, "Acquisition DateTime cannot be read: " + acquired);
    }
    String sopUid = header.text(Tags.SOP_INSTANCE_UID).orElse("");
    if (!sopUid.equals(source.identity().sopUid())) {
      return refused(
          Reason.NOT_OF_THIS_SCAN,
          "the header is of " + sopUid + ", the scan of " + source.identity().sopUid());
    }
    return Optional.empty();
  }

  private static Optional<Refused> refused(Reason reason, String detail) {
    return Optional.of(new Refused(reason, detail));
  }
}

package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.Sha256;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.DerivedWriteResult.Reason;
import org.isopach.dicom.derive.DerivedWriteResult.Refused;
import org.isopach.dicom.derive.DerivedWriteResult.Written;

/**
 * Writes maps as Parametric Map objects with float pixels in µm. Safe for several threads.
 *
 * <p>The definition of the object (DICOM PS3.3, A.75) was written from memory and judged by
 * dciodvfy; the table of our checker is from memory as well.
 */
public final class ParametricMapWriter {
  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public ParametricMapWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  /**
   * Writes one map. The same arguments and source give the same bytes.
   *
   * @param map the map
   * @param source the scan whose study it belongs to and whose coordinates it has
   * @param lateralScale what its lengths were multiplied with against those the object states
   * @param provenance how it was made
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      MicrometreMap map,
      OctScan source,
      double lateralScale,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    String frame = ParametricMapPlace.frameOfReference(source, lateralScale);
    return write(map, source, Optional.empty(), frame, provenance, target);
  }

  /**
   * Writes a map that a second scan had a part in, such as the baseline of a change. The same
   * arguments and sources give the same bytes.
   *
   * @param map the map
   * @param source the scan whose study it belongs to
   * @param second the other scan, named as the second source
   * @param placed the scan of the two whose coordinates the map has
   * @param lateralScale what that scan's lengths were multiplied with against those its object
   *     states
   * @param provenance how it was made
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when a source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      MicrometreMap map,
      OctScan source,
      OctScan second,
      OctScan placed,
      double lateralScale,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    String frame = ParametricMapPlace.frameOfReference(placed, lateralScale);
    return write(map, source, Optional.of(second), frame, provenance, target);
  }

  private DerivedWriteResult write(
      MicrometreMap map,
      OctScan source,
      Optional<OctScan> second,
      String frame,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    byte[] pixels = pixels(map);
    if (range(map)[0] > range(map)[1]) {
      return new Refused(Reason.NO_VALUES, "no cell has a value");
    }
    Dataset header = headers.header(source);
    List<InstanceReference> sources = new ArrayList<>();
    Optional<Refused> obstacle = DerivedSource.obstacle(header, source);
    if (obstacle.isEmpty()) {
      sources.add(DerivedSource.reference(header));
    }
    if (obstacle.isEmpty() && second.isPresent()) {
      Dataset other = headers.header(second.get());
      obstacle = DerivedSource.obstacle(other, second.get());
      if (obstacle.isEmpty()) {
        sources.add(DerivedSource.reference(other));
      }
    }
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    Dataset dataset = object(map, source, second, frame, provenance, header, sources, pixels);
    writer.write(target, dataset, pixels);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  private static Dataset object(
      MicrometreMap map,
      OctScan source,
      Optional<OctScan> second,
      String frame,
      DerivedProvenance provenance,
      Dataset header,
      List<InstanceReference> sources,
      byte[] pixels) {
    String[] names = {
      source.identity().sopUid(),
      source.document().sha256(),
      second.map(scan -> scan.identity().sopUid() + " " + scan.document().sha256()).orElse(""),
      provenance.softwareVersion(),
      provenance.parameters(),
      map.name(),
      map.lattice() + " " + map.centre(),
      frame,
      Sha256.of(pixels),
    };
    Dataset.Builder object = Dataset.builder();
    DerivedSource.addTo(object, header, provenance);
    ParametricMapObject.addTo(
        object, map, source.laterality().orElseThrow(), header, sources, provenance, names);
    ParametricMapPlace.addTo(object, map, frame);
    return object.build();
  }

  /** Returns the least and the greatest value; plus and minus infinity when there is none. */
  static float[] range(MicrometreMap map) {
    float[] range = {Float.POSITIVE_INFINITY, Float.NEGATIVE_INFINITY};
    for (int row = 0; row < map.lattice().rows(); row++) {
      for (int column = 0; column < map.lattice().columns(); column++) {
        float value = map.cells().at(row, column);
        if (!Float.isNaN(value)) {
          range[0] = Math.min(range[0], value);
          range[1] = Math.max(range[1], value);
        }
      }
    }
    return range;
  }

  private static byte[] pixels(MicrometreMap map) {
    ByteBuffer buffer =
        ByteBuffer.allocate(Math.multiplyExact(map.lattice().cells(), Float.BYTES))
            .order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < map.lattice().rows(); row++) {
      for (int column = 0; column < map.lattice().columns(); column++) {
        buffer.putFloat(map.cells().at(row, column));
      }
    }
    return buffer.array();
  }
}

package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;
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
 * Writes projections as Ophthalmic Optical Coherence Tomography En Face Images (DICOM PS3.3, A.83
 * and C.8.17.14): 8 bit, grey, square pixels in mm. Safe for several threads.
 *
 * <p>Written by the tables of about 2019. The surface that the slab is counted from is named in the
 * Referenced Surface Mesh Identification Sequence of that edition; what it refers to is the scan's
 * height map, as the standard allows since 2024d (Supplement 240), whose own tables were not at
 * hand.
 */
public final class EnFaceWriter {
  private static final int MOST = 0xffff;

  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public EnFaceWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  /**
   * Writes one picture. The same arguments and source give the same bytes.
   *
   * @param picture the picture, in the coordinates of the scan's path
   * @param surface the surface its slab is counted from, in a height map of the same scan
   * @param source the scan
   * @param lateralScale what its lengths were multiplied with against those the object states
   * @param provenance how it was made
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      EnFacePicture picture,
      SurfaceReference surface,
      OctScan source,
      double lateralScale,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    if (picture.lattice().rows() > MOST || picture.lattice().columns() > MOST) {
      return new Refused(Reason.OUT_OF_RANGE, "more than 65535 rows or columns");
    }
    byte[] pixels = EnFaceGrey.pixels(picture);
    if (empty(pixels)) {
      return new Refused(Reason.NO_VALUES, "no cell has a value");
    }
    Dataset header = headers.header(source);
    Optional<Refused> obstacle = DerivedSource.obstacle(header, source);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    String[] names = {
      source.identity().sopUid(),
      source.document().sha256(),
      provenance.softwareVersion(),
      provenance.parameters(),
      picture.lattice() + " " + picture.origin() + " " + picture.slab() + " " + picture.range(),
      surface.toString(),
      Double.toString(lateralScale),
      Sha256.of(pixels),
    };
    Dataset.Builder object = Dataset.builder();
    DerivedSource.addTo(object, header, provenance);
    EnFaceObject.addTo(object, picture, source, header, provenance, names);
    EnFaceObject.addSlab(object, picture.slab(), surface, source.axial());
    EnFaceObject.addPlace(
        object, picture, ParametricMapPlace.frameOfReference(source, lateralScale));
    Dataset dataset = object.build();
    writer.write(target, dataset, pixels);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  private static boolean empty(byte[] pixels) {
    for (byte pixel : pixels) {
      if (pixel != EnFaceGrey.NO_VALUE) {
        return false;
      }
    }
    return true;
  }
}

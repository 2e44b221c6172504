package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.Sha256;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.DerivedWriteResult.Reason;
import org.isopach.dicom.derive.DerivedWriteResult.Refused;
import org.isopach.dicom.derive.DerivedWriteResult.Written;

/**
 * Writes boundaries as a Height Map Segmentation (DICOM PS3.3, A.91 and C.8.20, 2024d): one frame
 * for a surface, one row for a frame of the scan, one column for an A-scan. Safe for several
 * threads.
 *
 * <p>Values are pixel rows from the top of the scan's pixel matrix, half a pixel more than our
 * depths, which count from the centre of the first; NaN where there is no surface, or none of
 * enough confidence.
 */
public final class HeightMapWriter {
  /** Pixel rows from the top of the pixel matrix to where our depths count from. */
  public static final float TOP_OF_FIRST_PIXEL = 0.5f;

  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.66.8";

  private static final String KIND = "height-map";
  private static final String SERIES_NUMBER = "8104";
  private static final int MOST = 0xffff;

  /** CID 7150; from memory. */
  private static final Code CATEGORY = new Code("123037004", "SCT", "Anatomical Structure");

  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public HeightMapWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  /**
   * Writes all boundaries of a scan. The same arguments and source give the same bytes.
   *
   * @param boundaries what was found, of the scan's shape
   * @param minimumConfidence depths of less, from 0 to 1, are left out
   * @param source the scan
   * @param provenance how
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      BoundarySet boundaries,
      double minimumConfidence,
      OctScan source,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    if (boundaries.frames() != source.size().frames()
        || boundaries.ascans() != source.size().ascans()) {
      return new Refused(Reason.NOT_OF_THIS_SCAN, "boundaries and scan differ in shape");
    }
    if (boundaries.frames() > MOST || boundaries.ascans() > MOST) {
      return new Refused(Reason.OUT_OF_RANGE, "more than 65535 frames or A-scans");
    }
    Dataset header = headers.header(source);
    Optional<Refused> obstacle = DerivedSource.obstacle(header, source);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    byte[] pixels = pixels(boundaries, minimumConfidence);
    Dataset dataset = object(boundaries, source, header, provenance, pixels);
    writer.write(target, dataset, pixels);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  /**
   * Returns what to call a boundary of the height map that {@link #write} makes of the same
   * arguments, for objects that refer to it.
   *
   * @throws IllegalArgumentException when the boundary is not among them
   */
  public static SurfaceReference reference(
      BoundarySet boundaries,
      double minimumConfidence,
      OctScan source,
      DerivedProvenance provenance,
      Boundary boundary) {
    int index = List.copyOf(boundaries.boundaries()).indexOf(boundary);
    if (index < 0) {
      throw new IllegalArgumentException("there is no " + boundary.code());
    }
    String[] names = names(boundaries, source, provenance, pixels(boundaries, minimumConfidence));
    return new SurfaceReference(DerivedUids.of(KIND, names), index + 1, boundary);
  }

  /** Returns everything the content depends on. */
  private static String[] names(
      BoundarySet boundaries, OctScan scan, DerivedProvenance provenance, byte[] pixels) {
    return new String[] {
      scan.identity().sopUid(),
      scan.document().sha256(),
      provenance.softwareVersion(),
      provenance.parameters(),
      boundaries.boundaries().toString(),
      Sha256.of(pixels),
    };
  }

  private static Dataset object(
      BoundarySet boundaries,
      OctScan scan,
      Dataset header,
      DerivedProvenance provenance,
      byte[] pixels) {
    String[] names = names(boundaries, scan, provenance, pixels);
    Dataset.Builder object = Dataset.builder();
    DerivedSource.addTo(object, header, provenance);
    SegmentParts.addIdentity(object, KIND, header, names);
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Retinal boundaries")
        .text(Tags.LATERALITY, Vr.CS, scan.laterality().orElseThrow().code())
        .text(Tags.CONTENT_LABEL, Vr.CS, "BOUNDARIES")
        .text(Tags.SEGMENTATION_TYPE, Vr.CS, "HEIGHTMAP")
        .text(Tags.NUMBER_OF_FRAMES, Vr.IS, Integer.toString(boundaries.boundaries().size()))
        .numbers(Tags.ROWS, Vr.US, boundaries.frames())
        .numbers(Tags.COLUMNS, Vr.US, boundaries.ascans())
        .numbers(Tags.BITS_ALLOCATED, Vr.US, Float.SIZE)
        .numbers(Tags.FLOAT_PIXEL_PADDING_VALUE, Vr.FL, Float.NaN)
        .numbers(Tags.FLOAT_PIXEL_PADDING_RANGE_LIMIT, Vr.FL, Float.NaN);
    groups(object, boundaries, scan.laterality().orElseThrow(), header, names, provenance);
    return object.build();
  }

  private static void groups(
      Dataset.Builder object,
      BoundarySet boundaries,
      Laterality eye,
      Dataset header,
      String[] names,
      DerivedProvenance provenance) {
    List<SegmentParts.Segment> segments = new ArrayList<>();
    List<Dataset> frames = new ArrayList<>();
    for (Boundary boundary : boundaries.boundaries()) {
      segments.add(new SegmentParts.Segment(boundary.code(), CATEGORY, SurfaceCode.of(boundary)));
      frames.add(SegmentParts.frame(segments.size(), segments.size()).build());
    }
    SegmentParts.addSegments(object, segments, eye, provenance);
    SegmentParts.addDimensions(
        object,
        DerivedUids.of(KIND + "-dimensions", names),
        new int[] {Tags.REFERENCED_SEGMENT_NUMBER, Tags.SEGMENT_IDENTIFICATION_SEQUENCE});
    object
        .items(
            Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
            Dataset.builder()
                .items(Tags.DERIVATION_IMAGE_SEQUENCE, SegmentParts.derivation(header, 0))
                .build())
        .items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, frames);
  }

  /** Returns the values, index {@code (surface, frame, ascan)}, little endian. */
  private static byte[] pixels(BoundarySet boundaries, double minimumConfidence) {
    int each = boundaries.frames() * boundaries.ascans();
    ByteBuffer buffer =
        ByteBuffer.allocate(Math.multiplyExact(boundaries.boundaries().size() * 4, each))
            .order(ByteOrder.LITTLE_ENDIAN);
    for (Boundary boundary : boundaries.boundaries()) {
      BoundarySurface surface = boundaries.surface(boundary).orElseThrow();
      for (int frame = 0; frame < boundaries.frames(); frame++) {
        for (int ascan = 0; ascan < boundaries.ascans(); ascan++) {
          float depth = surface.depthPx(frame, ascan);
          boolean sure = surface.confidence(frame, ascan) >= minimumConfidence;
          buffer.putFloat(sure && !Float.isNaN(depth) ? depth + TOP_OF_FIRST_PIXEL : Float.NaN);
        }
      }
    }
    return buffer.array();
  }
}

package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.region.RegionLabels;
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
 * Writes fluid and other regions as a binary Segmentation (DICOM PS3.3, A.51 and C.8.20): a segment
 * for a kind, a frame for each frame of the scan that has voxels of it. Safe for several threads.
 */
public final class RegionSegmentationWriter {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.66.4";

  private static final String KIND = "segmentation";
  private static final String SERIES_NUMBER = "8105";
  private static final String STACK = "1";
  private static final int MOST = 0xffff;
  private static final Code CATEGORY =
      new Code("49755003", "SCT", "Morphologically Abnormal Structure");

  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public RegionSegmentationWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  /**
   * Writes all regions of a scan. The same arguments and source give the same bytes.
   *
   * @param labels which voxels, of the scan's shape
   * @param source the scan
   * @param provenance how they were found
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      RegionLabels labels, OctScan source, DerivedProvenance provenance, Path target)
      throws IOException {
    if (!labels.size().equals(source.size())) {
      return new Refused(Reason.NOT_OF_THIS_SCAN, "regions and scan differ in shape");
    }
    RegionFrames frames = new RegionFrames(labels);
    if (frames.places().isEmpty()) {
      return new Refused(Reason.NO_VALUES, "no voxel belongs to a region");
    }
    if (frames.bytes() < 0 || source.size().depths() > MOST || source.size().ascans() > MOST) {
      return new Refused(Reason.OUT_OF_RANGE, "too many voxels for one object");
    }
    Dataset header = headers.header(source);
    Optional<Refused> obstacle = DerivedSource.obstacle(header, source);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    byte[] pixels = frames.bits();
    Dataset dataset = object(frames, source, header, provenance, pixels);
    writer.write(target, dataset, pixels);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  private static Dataset object(
      RegionFrames frames,
      OctScan scan,
      Dataset header,
      DerivedProvenance provenance,
      byte[] pixels) {
    String[] names = {
      scan.identity().sopUid(),
      scan.document().sha256(),
      provenance.softwareVersion(),
      provenance.parameters(),
      frames.places().toString(),
      Sha256.of(pixels),
    };
    Dataset.Builder object = Dataset.builder();
    DerivedSource.addTo(object, header, provenance);
    SegmentParts.addIdentity(object, KIND, header, names);
    SegmentParts.addCompression(object, header);
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Regions of the retina")
        .text(Tags.CONTENT_LABEL, Vr.CS, "REGIONS")
        .text(Tags.SEGMENTATION_TYPE, Vr.CS, "BINARY")
        .text(Tags.NUMBER_OF_FRAMES, Vr.IS, Integer.toString(frames.places().size()))
        .numbers(Tags.ROWS, Vr.US, scan.size().depths())
        .numbers(Tags.COLUMNS, Vr.US, scan.size().ascans())
        .numbers(Tags.BITS_ALLOCATED, Vr.US, 1)
        .numbers(Tags.BITS_STORED, Vr.US, 1)
        .numbers(Tags.HIGH_BIT, Vr.US, 0)
        .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0);
    groups(object, frames, scan.laterality().orElseThrow(), header, names, provenance);
    return object.build();
  }

  private static void groups(
      Dataset.Builder object,
      RegionFrames frames,
      Laterality eye,
      Dataset header,
      String[] names,
      DerivedProvenance provenance) {
    SegmentParts.addSegments(
        object,
        frames.kinds().stream()
            .map(kind -> new SegmentParts.Segment(kind.code(), CATEGORY, RegionCode.of(kind)))
            .toList(),
        eye,
        provenance);
    SegmentParts.addDimensions(
        object,
        DerivedUids.of(KIND + "-dimensions", names),
        new int[] {Tags.REFERENCED_SEGMENT_NUMBER, Tags.SEGMENT_IDENTIFICATION_SEQUENCE},
        new int[] {Tags.IN_STACK_POSITION_NUMBER, Tags.FRAME_CONTENT_SEQUENCE});
    List<Dataset> items = new ArrayList<>();
    for (RegionFrames.Place place : frames.places()) {
      int number = place.frame() + 1;
      items.add(
          SegmentParts.frame(place.segment(), place.segment(), number)
              .items(
                  Tags.FRAME_CONTENT_SEQUENCE,
                  Dataset.builder()
                      .numbers(Tags.DIMENSION_INDEX_VALUES, Vr.UL, place.segment(), number)
                      .text(Tags.STACK_ID, Vr.SH, STACK)
                      .numbers(Tags.IN_STACK_POSITION_NUMBER, Vr.UL, number)
                      .build())
              .items(Tags.DERIVATION_IMAGE_SEQUENCE, SegmentParts.derivation(header, number))
              .build());
    }
    object
        .items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, Dataset.builder().build())
        .items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, items);
  }
}

package org.isopach.dicom.read;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.dicom.ScanDescription;
import org.isopach.dicom.ScanDescription.PlacementSource;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.pixel.FrameMemory;
import org.isopach.dicom.pixel.PixelFormat;

/** Turns an Ophthalmic Tomography object into a scan (DICOM PS3.3, section A.52.4). */
final class TomographyReader {
  private static final int ISSUER_OF_PATIENT_ID = 0x00100021;
  static final int MOST_FRAMES = 1_000_000;
  private static final long MOST_ASCANS = 1L << 24;

  private final Map<String, Localizer> localizers;
  private final FrameMemory memory = new FrameMemory();

  /** Makes a reader that places frames on these fundus images, by SOP instance UID. */
  TomographyReader(Map<String, Localizer> localizers) {
    this.localizers = Map.copyOf(localizers);
  }

  /**
   * Returns the scan.
   *
   * @param sha256 the file's digest
   * @param remarks receives what is noteworthy
   * @throws ObjectDefect when nothing can be measured in it; says why
   * @throws IOException when the file cannot be read
   */
  ReadScan read(ParsedObject object, String sha256, Remarks remarks)
      throws ObjectDefect, IOException {
    Dataset attributes = object.attributes();
    requireName(attributes);
    AnatomicRegion.requireRetina(attributes);
    FunctionalGroups groups = FunctionalGroups.of(attributes);
    int frames = frames(attributes, groups);
    PixelFormat format = PixelFormat.of(attributes);
    FrameSource source = open(object, format, frames);
    PixelMeasures measures = new PixelMeasures(groups, frames);
    AxialScale axial = measures.axial(format.rows());
    Optional<Placement> placement =
        new PlacementReader(localizers, remarks)
            .place(attributes, groups, measures, frames, format.columns());
    ScanIdentity identity = identity(attributes, remarks);
    OctScan scan =
        new OctScan(
            identity,
            new SourceDocument(object.location(), sha256),
            LateralityReader.read(attributes, groups, frames, remarks),
            new ScanSize(frames, format.columns(), format.rows()),
            axial,
            placement.map(Placement::path),
            placement.flatMap(Placement::reference),
            axialLength(attributes, remarks),
            format.range(),
            source,
            ScanSource.born(attributes, identity.acquired(), remarks),
            ScanSource.device(attributes));
    return new ReadScan(scan, description(object, format, placement));
  }

  private static void requireName(Dataset attributes) throws ObjectDefect {
    if (attributes.text(Tags.SOP_INSTANCE_UID).isEmpty()) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE, "SOP Instance UID (0008,0018) is missing or empty");
    }
  }

  private FrameSource open(ParsedObject object, PixelFormat format, int frames)
      throws ObjectDefect, IOException {
    if ((long) frames * format.columns() > MOST_ASCANS) {
      throw new ObjectDefect(
          FindingKind.UNSUPPORTED_ENCODING,
          frames + " frames of " + format.columns() + " A-scans are too many");
    }
    FrameSource source = object.frames(format, frames);
    return object.syntax().encapsulated() ? memory.remembering(source, format, frames) : source;
  }

  /** Returns who and when an object is, noting what is missing of it. */
  static ScanIdentity identity(Dataset attributes, Remarks remarks) {
    return new ScanIdentity(
        attributes.text(Tags.PATIENT_ID).orElse(""),
        attributes.text(Tags.STUDY_INSTANCE_UID).orElse(""),
        attributes.text(Tags.SERIES_INSTANCE_UID).orElse(""),
        attributes.text(Tags.SOP_INSTANCE_UID).orElse(""),
        AcquisitionTime.read(attributes, remarks),
        attributes.text(ISSUER_OF_PATIENT_ID).orElse(""));
  }

  private static int frames(Dataset attributes, FunctionalGroups groups) throws ObjectDefect {
    NumberField field = NumberField.of(attributes, Tags.NUMBER_OF_FRAMES);
    String words = "Number of Frames (0028,0008) is " + field.words();
    if (field instanceof NumberField.Malformed) {
      throw new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, words);
    }
    double number = field.values().isEmpty() ? 0 : field.values().get(0);
    if (!(number >= 1 && number <= MOST_FRAMES) || number != Math.rint(number)) {
      throw new ObjectDefect(FindingKind.NO_FRAMES, words);
    }
    int items = groups.perFrameItems();
    if (items != 0 && items != (int) number) {
      throw new ObjectDefect(
          FindingKind.NO_FRAMES,
          words + ", the Per-frame Functional Groups Sequence has " + items + " items");
    }
    return (int) number;
  }

  private static Optional<Double> axialLength(Dataset attributes, Remarks remarks) {
    NumberField field = NumberField.of(attributes, Tags.AXIAL_LENGTH_OF_THE_EYE);
    if (field instanceof NumberField.Missing || field instanceof NumberField.Empty) {
      return Optional.empty();
    }
    Optional<Double> mm = field.values().stream().findFirst().filter(v -> v > 0 && !v.isInfinite());
    if (mm.isEmpty()) {
      remarks.add(
          FindingKind.ATTRIBUTE_IGNORED, "Axial Length of the Eye (0022,0030) is " + field.words());
    }
    return mm;
  }

  private static ScanDescription description(
      ParsedObject object, PixelFormat format, Optional<Placement> placement) {
    Dataset attributes = object.attributes();
    PlacementSource source = PlacementSource.NONE;
    if (placement.isPresent()) {
      source =
          placement.get().reference().isPresent()
              ? PlacementSource.FRAME_LOCATION
              : PlacementSource.PLANE_POSITION;
    }
    return new ScanDescription(
        attributes.text(Tags.SOP_INSTANCE_UID).orElse(""),
        object.location(),
        attributes.text(Tags.STUDY_DATE).orElse(""),
        attributes.text(Tags.MANUFACTURER).orElse(""),
        attributes.text(Tags.MANUFACTURER_MODEL_NAME).orElse(""),
        object.syntax().uid(),
        format.bitsAllocated(),
        format.bitsStored(),
        format.signed(),
        format.inverted(),
        source,
        placement.flatMap(Placement::reference).map(reference -> reference.sopUid()));
  }
}

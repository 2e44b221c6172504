package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
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
 * Writes reports of scans as Encapsulated PDF (DICOM PS3.3, A.45.1 and C.24). Safe for several
 * threads.
 */
public final class EncapsulatedPdfWriter {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.104.1";

  private static final String KIND = "encapsulated-pdf";
  private static final String SERIES_NUMBER = "8108";
  private static final byte[] START = "%PDF-".getBytes(StandardCharsets.US_ASCII);
  private static final Code TITLE =
      new Code("111690", "DCM", "Macular Grid Thickness and Volume Report");

  private final SourceHeaders headers;
  private final DicomObjectWriter writer;

  /**
   * @param headers gives the source object's attributes
   * @param writer puts the object into a file
   */
  public EncapsulatedPdfWriter(SourceHeaders headers, DicomObjectWriter writer) {
    this.headers = Objects.requireNonNull(headers, "headers");
    this.writer = Objects.requireNonNull(writer, "writer");
  }

  /**
   * Writes the report of a macular scan. The same arguments and source give the same bytes.
   *
   * @param pdf the whole document; one zero byte is added when its length is odd
   * @param title what it is called, ASCII
   * @param macularGrid whether it has a macular grid as {@link MacularGridReportWriter} writes it;
   *     only then is it titled so by a code
   * @param source the scan it is about
   * @param provenance how it was made
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  public DerivedWriteResult write(
      byte[] pdf,
      String title,
      boolean macularGrid,
      OctScan source,
      DerivedProvenance provenance,
      Path target)
      throws IOException {
    if (pdf.length < START.length || !Arrays.equals(Arrays.copyOf(pdf, START.length), START)) {
      return new Refused(Reason.NO_VALUES, "the document is no PDF");
    }
    Dataset header = headers.header(source);
    Optional<Refused> obstacle = DerivedSource.obstacle(header, source);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    Dataset dataset =
        object(pdf, title, source, header, provenance)
            .items(
                Tags.CONCEPT_NAME_CODE_SEQUENCE, macularGrid ? List.of(TITLE.toItem()) : List.of())
            .build();
    writer.write(target, dataset, new byte[0]);
    return new Written(target, dataset.text(Tags.SOP_INSTANCE_UID).orElseThrow());
  }

  private static Dataset.Builder object(
      byte[] pdf, String title, OctScan scan, Dataset header, DerivedProvenance provenance) {
    String[] names = {
      scan.identity().sopUid(),
      scan.document().sha256(),
      provenance.softwareVersion(),
      provenance.parameters(),
      title,
      Sha256.of(pdf),
    };
    Dataset.Builder object = Dataset.builder();
    DerivedSource.addTo(object, header, provenance);
    return object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, DerivedUids.of(KIND, names))
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of(KIND + "-series", names))
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Retinal thickness report")
        .text(Tags.MODALITY, Vr.CS, "DOC")
        .text(Tags.INSTANCE_NUMBER, Vr.IS, "1")
        .text(Tags.CONVERSION_TYPE, Vr.CS, "SYN")
        .put(header.element(Tags.ACQUISITION_DATETIME).orElseThrow())
        .text(Tags.IMAGE_LATERALITY, Vr.CS, scan.laterality().orElseThrow().code())
        .text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "YES")
        .text(Tags.RECOGNIZABLE_VISUAL_FEATURES, Vr.CS, "NO")
        .items(
            Tags.SOURCE_INSTANCE_SEQUENCE,
            DerivedSource.reference(header)
                .toItem()
                .items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, SegmentParts.SOURCE_IMAGE.toItem())
                .build())
        .text(Tags.DOCUMENT_TITLE, Vr.ST, DerivedSource.ascii(title))
        .text(Tags.VERIFICATION_FLAG, Vr.CS, "UNVERIFIED")
        .text(Tags.MIME_TYPE_OF_ENCAPSULATED_DOCUMENT, Vr.LO, "application/pdf")
        .numbers(Tags.ENCAPSULATED_DOCUMENT_LENGTH, Vr.UL, pdf.length)
        .bytes(Tags.ENCAPSULATED_DOCUMENT, Vr.OB, Arrays.copyOf(pdf, pdf.length + pdf.length % 2));
  }
}

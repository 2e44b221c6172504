package org.isopach.dicom.derive;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * The attributes of a Macular Grid Thickness and Volume Report (DICOM PS3.3, A.35.11).
 *
 * <p>The rows of its template (PS3.16, TID 2100 and 2101) were not at hand: names, concepts, units
 * and allowed relationships are the standard's, the order of the items is ours.
 */
final class MacularGridObject {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.79.1";

  private static final String SERIES_NUMBER = "8103";
  private static final int UM_DECIMALS = 3;
  private static final int MM3_DECIMALS = 6;
  private static final Code ROOT =
      new Code("111690", "DCM", "Macular Grid Thickness and Volume Report");
  private static final Code FINDINGS = new Code("121070", "DCM", "Findings");
  private static final Code IMAGES =
      new Code("111691", "DCM", "Number of Images Used for Macular Measurements");
  private static final Code SAMPLES = new Code("111692", "DCM", "Number of Samples Used per Image");
  private static final Code NO_UNIT = new Code("1", "UCUM", "no units");
  private static final Code SITE = new Code("363698007", "SCT", "Finding Site");
  private static final Code LATERALITY = new Code("272741003", "SCT", "Laterality");
  private static final Code METHOD = new Code("370129005", "SCT", "Measurement Method");

  /** CID 42; from memory. */
  private static final Code FAILURE = new Code("114006", "DCM", "Measurement failure");

  private MacularGridObject() {}

  /** Adds all attributes but those the source lends. */
  static void addTo(
      Dataset.Builder object,
      SectorTable table,
      OctScan scan,
      Dataset header,
      List<String> remarks,
      DerivedProvenance provenance) {
    List<Dataset> findings = findings(table, scan, DerivedSource.reference(header), provenance);
    String[] names = names(table, scan, remarks, provenance);
    List<Dataset> content = new ArrayList<>(ReportObserver.items(provenance));
    content.add(ContentItem.container(ContentItem.CONTAINS, FINDINGS, findings));
    content.add(ReportObserver.caution());
    for (String remark : remarks) {
      content.add(ReportObserver.comment(ContentItem.CONTAINS, remark));
    }
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, DerivedUids.of("grid-report", names))
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of("grid-report-series", names))
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Macular grid reports")
        .text(Tags.MODALITY, Vr.CS, "SR")
        .text(Tags.INSTANCE_NUMBER, Vr.IS, "1")
        .items(Tags.REFERENCED_PERFORMED_PROCEDURE_STEP_SEQUENCE)
        .items(Tags.PERFORMED_PROCEDURE_CODE_SEQUENCE)
        .text(Tags.COMPLETION_FLAG, Vr.CS, "COMPLETE")
        .text(Tags.VERIFICATION_FLAG, Vr.CS, "UNVERIFIED")
        .items(Tags.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE, evidence(header))
        .text(Tags.VALUE_TYPE, Vr.CS, "CONTAINER")
        .items(Tags.CONCEPT_NAME_CODE_SEQUENCE, ROOT.toItem())
        .text(Tags.CONTINUITY_OF_CONTENT, Vr.CS, "SEPARATE")
        .items(
            Tags.CONTENT_TEMPLATE_SEQUENCE,
            Dataset.builder()
                .text(Tags.MAPPING_RESOURCE, Vr.CS, "DCMR")
                .text(Tags.TEMPLATE_IDENTIFIER, Vr.CS, "2100")
                .build())
        .items(Tags.CONTENT_SEQUENCE, content);
  }

  /** Returns everything the content depends on. */
  private static String[] names(
      SectorTable table, OctScan scan, List<String> remarks, DerivedProvenance provenance) {
    List<String> names = new ArrayList<>();
    names.add(scan.identity().sopUid());
    names.add(scan.document().sha256());
    names.add(provenance.softwareVersion());
    names.add(provenance.parameters());
    names.add(table.layer().name());
    for (SectorResult result : table.sectors()) {
      names.add(value(result).orElseGet(() -> reason(result)));
    }
    names.add(value(table.centrePoint()).orElseGet(() -> reason(table.centrePoint())));
    names.addAll(remarks);
    return names.toArray(String[]::new);
  }

  private static Dataset evidence(Dataset header) {
    InstanceReference source = DerivedSource.reference(header);
    return Dataset.builder()
        .text(Tags.STUDY_INSTANCE_UID, Vr.UI, source.studyUid())
        .items(
            Tags.REFERENCED_SERIES_SEQUENCE,
            Dataset.builder()
                .text(Tags.SERIES_INSTANCE_UID, Vr.UI, source.seriesUid())
                .items(Tags.REFERENCED_SOP_SEQUENCE, source.toItem().build())
                .build())
        .build();
  }

  private static List<Dataset> findings(
      SectorTable table, OctScan scan, InstanceReference source, DerivedProvenance provenance) {
    Code side = EyeCode.side(table.laterality());
    Code definition = ThicknessDefinition.of(table.layer()).orElseThrow().code();
    List<Dataset> items = new ArrayList<>();
    items.add(
        ContentItem.code(
            ContentItem.CONCEPT_MODIFIER,
            SITE,
            EyeCode.EYE,
            ContentItem.code(ContentItem.CONCEPT_MODIFIER, LATERALITY, side)));
    items.add(ContentItem.code(ContentItem.CONCEPT_MODIFIER, METHOD, definition));
    items.addAll(ReportObserver.algorithm(provenance));
    items.add(count(IMAGES, scan.size().frames()));
    items.add(count(SAMPLES, scan.size().ascans()));
    Dataset image = ContentItem.image(ContentItem.INFERRED_FROM, source);
    items.add(item(MacularGridCodes.CENTRE_POINT, table.centrePoint(), image));
    for (Map.Entry<String, Code> sector : MacularGridCodes.SECTORS.entrySet()) {
      items.add(item(sector.getValue(), table.sector(sector.getKey()).orElseThrow(), image));
    }
    items.add(
        item(MacularGridCodes.TOTAL_VOLUME, table.sector(SectorGrid.TOTAL).orElseThrow(), image));
    return items;
  }

  private static Dataset count(Code name, int value) {
    return ContentItem.number(ContentItem.CONTAINS, name, Integer.toString(value), NO_UNIT);
  }

  private static Dataset item(Code name, SectorResult result, Dataset image) {
    Code unit =
        result.sector().equals(SectorGrid.TOTAL)
            ? MacularGridCodes.CUBIC_MILLIMETRE
            : MacularGridCodes.MICROMETRE;
    return value(result)
        .map(text -> ContentItem.number(ContentItem.CONTAINS, name, text, unit, image))
        .orElseGet(
            () ->
                ContentItem.noNumber(
                    ContentItem.CONTAINS,
                    name,
                    FAILURE,
                    ReportObserver.comment(ContentItem.OBSERVATION_CONTEXT, reason(result)),
                    image));
  }

  /** Returns a value with the decimals of the table of sectors. */
  private static Optional<String> value(SectorResult result) {
    if (!(result instanceof Measured measured)) {
      return Optional.empty();
    }
    return Optional.of(
        result.sector().equals(SectorGrid.TOTAL)
            ? fixed(measured.volumeMm3(), MM3_DECIMALS)
            : fixed(measured.meanUm(), UM_DECIMALS));
  }

  /** Returns why there is no value. */
  private static String reason(SectorResult result) {
    return result instanceof NotMeasurable refused
        ? refused.reason().code() + ": " + refused.detail()
        : "none";
  }

  private static String fixed(double value, int decimals) {
    return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
  }
}

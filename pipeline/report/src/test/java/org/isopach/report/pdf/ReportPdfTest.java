package org.isopach.report.pdf;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Calendar;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.text.PDFTextStripper;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.report.Cautions;
import org.isopach.report.SampleMaps;
import org.isopach.report.picture.ThicknessPicture;
import org.junit.jupiter.api.Test;

class ReportPdfTest {
  private static final String SOFTWARE = "Isopach 0.1.0";
  private static final Finding FINDING =
      new Finding(FindingKind.LOW_SIGNAL, "visit/a.dcm", "median signal is 9.0 dB");

  /** 6 mm to the right, 5 mm down. */
  private static final ScanPath PATH =
      ScanPath.ofLines(
          IntStream.range(0, 19).mapToObj(i -> new FundusPoint(0, i * 5 / 18.0)).toList(),
          IntStream.range(0, 19).mapToObj(i -> new FundusPoint(6, i * 5 / 18.0)).toList(),
          128,
          new FundusFrame(FundusFrame.Kind.PATIENT, "2.25.9"));

  /** A layer that is in the table only: nothing of it was found. */
  private static final SectorTable UNMAPPED =
      SampleMaps.table(
          SampleMaps.map(
              new ScanIdentity(
                  "SP-0001", "2.25.10", "2.25.11", "2.25.12", Optional.of(SampleMaps.FIRST_VISIT)),
              Laterality.RIGHT,
              new Layer(Boundary.INL_OPL, Boundary.OPL_ONL),
              (x, y) -> Double.NaN));

  private static ScanReport report(String patient, List<Layer> layers) {
    return report(patient, layers, 1);
  }

  private static ScanReport report(String patient, List<Layer> layers, double lateralScale) {
    ScanIdentity identity =
        new ScanIdentity(
            patient, "2.25.10", "2.25.11", "2.25.12", Optional.of(SampleMaps.FIRST_VISIT));
    List<ScanReport.Mapped> maps = new ArrayList<>();
    for (Layer layer : layers) {
      // Nothing to the right of 2 mm: the outer nasal sector of a right eye cannot be measured.
      ThicknessMap map =
          SampleMaps.map(
              identity, Laterality.RIGHT, layer, (x, y) -> x > 2 ? Double.NaN : 300 + 10 * y);
      SectorTable table = SampleMaps.table(map);
      maps.add(new ScanReport.Mapped(map, table, ThicknessPicture.paint(map, table, SOFTWARE)));
    }
    OctScan scan =
        new OctScan(
            identity,
            new SourceDocument("visit/a.dcm", "ab".repeat(32)),
            Optional.of(Laterality.RIGHT),
            new ScanSize(19, 128, 496),
            AxialScale.ofMicrometresPerPixel(3.87),
            Optional.of(PATH),
            Optional.empty(),
            Optional.empty(),
            new GreyRange(0, 255),
            (index, into) -> {
              throw new AssertionError("a report reads no frame");
            });
    List<SectorTable> tables = new ArrayList<>();
    maps.forEach(one -> tables.add(one.table()));
    tables.add(UNMAPPED);
    return new ScanReport(
        scan,
        maps,
        tables,
        List.of(),
        new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.of(0.5)),
        List.of(FINDING),
        lateralScale,
        List.of("One pixel of depth is 3.87 \u00B5m."),
        SOFTWARE);
  }

  private static ScanReport three() {
    return report("SP-0001", List.of(Layer.ILM_BM, Layer.ILM_RPE, Layer.ILM_EZ));
  }

  private static String text(byte[] pdf, int page) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      PDFTextStripper stripper = new PDFTextStripper();
      if (page > 0) {
        stripper.setStartPage(page);
        stripper.setEndPage(page);
      }
      return stripper.getText(document);
    }
  }

  @Test
  void theSameReportGivesTheSameBytes() throws IOException {
    assertArrayEquals(ReportPdf.of(three()), ReportPdf.of(three()));
  }

  @Test
  void everyPageHasTheCautionsTheEyeAndItsNumber() throws IOException {
    byte[] pdf = ReportPdf.of(three());
    try (PDDocument document = Loader.loadPDF(pdf)) {
      int pages = document.getNumberOfPages();
      assertTrue(pages >= 2, pages + " pages");
      for (int page = 1; page <= pages; page++) {
        String text = text(pdf, page);
        assertTrue(text.contains(Cautions.LINE), text);
        assertTrue(text.contains("RIGHT EYE"), text);
        assertTrue(text.contains("patient SP-0001, 2026-03-04 09:12"), text);
        assertTrue(text.contains("page " + page + " of " + pages), text);
        assertEquals(
            PDRectangle.A4.toString(), document.getPage(page - 1).getMediaBox().toString());
      }
    }
  }

  @Test
  void saysWhatWasRefusedAndWhy() throws IOException {
    ScanReport report = three();
    String text = text(ReportPdf.of(report), 0).replace("\n", " ");
    SectorTable table = report.tables().get(0);
    assertTrue(text.contains("outer-nasal n/m"), text);
    assertTrue(text.contains("outer-nasal: "), text);
    assertTrue(text.contains("total: 1 of 9 sectors could not be measured"), text);
    assertTrue(text.contains("volume of the grid not measurable"), text);
    assertTrue(text.contains("median signal is 9.0 dB"), text);
    assertFalse(text.contains("visit/a.dcm"), "no place of a file");
    assertTrue(text.contains("centre 300.0 "), text);
    assertEquals("etdrs-1-3-6", table.grid().name());
    assertTrue(text.contains("2.25.12") && text.contains("ab".repeat(32)), text);
    assertTrue(text.contains(SOFTWARE), text);
  }

  /** A layer without a map has its reasons below the table, the centre point's among them. */
  @Test
  void saysWhyALayerWithoutAMapHasNoNumber() throws IOException {
    String text = text(ReportPdf.of(three()), 0).replaceAll("\\s+", " ");
    String name = LayerSection.name(UNMAPPED.layer());
    NotMeasurable point = assertInstanceOf(NotMeasurable.class, UNMAPPED.centrePoint());
    assertTrue(
        text.contains(name + " refused: " + point.sector() + ": " + point.detail() + "; centre: "),
        text);
    assertFalse(text.contains("sectors.csv"), text);
  }

  /** That there is no row of fluid must not be read as no fluid. */
  @Test
  void saysThatFluidWasNotLookedFor() throws IOException {
    String text = text(ReportPdf.of(three()), 0).replaceAll("\\s+", " ");
    assertTrue(text.contains("Fluid and other regions not looked for in this scan"), text);
  }

  /** The area is told in the mm of the maps and the grid. */
  @Test
  void lengthsCorrectedForTheEyeAreCorrectedEverywhere() throws IOException {
    assertTrue(text(ReportPdf.of(three()), 1).contains("6.00 mm across, 5.00 mm down"));
    String text = text(ReportPdf.of(report("SP-0001", List.of(Layer.ILM_BM), 1.1)), 1);
    assertTrue(text.contains("6.60 mm across, 5.50 mm down"), text);
  }

  @Test
  void isTaggedNamedAndDatedByTheScan() throws IOException {
    try (PDDocument document = Loader.loadPDF(ReportPdf.of(three()))) {
      assertEquals(
          "Retinal thickness, right eye, SP-0001, 2026-03-04 09:12",
          document.getDocumentInformation().getTitle());
      assertEquals(2026, document.getDocumentInformation().getCreationDate().get(Calendar.YEAR));
      assertEquals("en-GB", document.getDocumentCatalog().getLanguage());
      assertTrue(document.getDocumentCatalog().getMarkInfo().isMarked());
      assertNotNull(document.getDocumentCatalog().getStructureTreeRoot().getParentTree());
    }
  }

  @Test
  void everyFontIsEmbedded() throws IOException {
    try (PDDocument document = Loader.loadPDF(ReportPdf.of(three()))) {
      for (PDPage page : document.getPages()) {
        for (COSName name : page.getResources().getFontNames()) {
          assertTrue(page.getResources().getFont(name).isEmbedded(), name.getName());
          assertTrue(page.getResources().getFont(name).getName().contains("DejaVuSans"));
        }
      }
    }
  }

  /** Letters that the font lacks, line ends and an id longer than its column. */
  @Test
  void anyPatientIdIsSet() throws IOException {
    String id = "\u9DF8-\u0007\n" + "W".repeat(64);
    String text = text(ReportPdf.of(report(id, List.of(Layer.ILM_BM))), 1);
    assertTrue(text.contains("?-??WWW"), text);
    assertTrue(text.contains("\u2026"), "the column's text is shortened: " + text);
  }

  @Test
  void aReportWithoutAMapIsNoReport() {
    assertThrows(IllegalArgumentException.class, () -> report("SP-0001", List.of()));
  }
}

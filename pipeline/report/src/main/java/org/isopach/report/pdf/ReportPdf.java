package org.isopach.report.pdf;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigInteger;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TimeZone;
import java.util.stream.Collectors;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.report.Cautions;

/**
 * Sets the report of a scan as a PDF of A4 pages: the scan and its quality, each layer's map and
 * sectors, fluid, all layers, how the numbers were made.
 *
 * <p>The same report gives the same bytes: the only date in it is that of the scan.
 */
public final class ReportPdf {
  private static final int ID_DIGITS = 15;
  private static final double FOOT = PdfCanvas.HEIGHT - 52;
  private static final double HEAD = 34;

  private ReportPdf() {}

  /**
   * Returns the whole document.
   *
   * @throws IOException when the fonts in the program cannot be read
   */
  public static byte[] of(ScanReport report) throws IOException {
    try (PDDocument document = new PDDocument()) {
      describe(document, report);
      PdfCanvas canvas = new PdfCanvas(document);
      PdfFlow flow = new PdfFlow(canvas);
      content(flow, report);
      for (int page = 0; page < flow.pages(); page++) {
        canvas.over(page);
        furnish(canvas, report, page + 1, flow.pages());
      }
      canvas.finishPage();
      canvas.tags().finish(document);
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      document.save(out);
      return out.toByteArray();
    }
  }

  private static void content(PdfFlow flow, ScanReport report) throws IOException {
    flow.skip(14);
    flow.canvas().text("H1", Style.TITLE, PdfFlow.LEFT, flow.y(), report.title());
    flow.skip(26);
    ScanFacts.set(flow, report);
    for (ScanReport.Mapped layer : report.maps()) {
      LayerSection.set(flow, layer);
      if (layer.equals(report.maps().get(0))) {
        RegionSection.set(flow, report.regions());
      }
    }
    Set<Layer> mapped =
        report.maps().stream().map(one -> one.map().layer()).collect(Collectors.toSet());
    LayerMatrix.set(flow, report.tables(), mapped);
    method(flow, report);
  }

  private static void method(PdfFlow flow, ScanReport report) throws IOException {
    flow.heading("How the numbers were made", 60);
    List<String> sentences = new ArrayList<>(report.method());
    sentences.add(
        "Lines of equal thickness on the maps come from a smoothed copy; colours and numbers from"
            + " the map as measured. Directions are as the examiner sees the eye.");
    sentences.add(
        "SD, min and max describe the shape of the retina within a sector, not the error of the"
            + " mean.");
    sentences.add("Made by " + report.software() + ".");
    for (String sentence : sentences) {
      flow.paragraph(Style.TEXT, sentence);
    }
    flow.heading("Where they come from", 60);
    OctScan scan = report.scan();
    source(flow, "study", scan.identity().studyUid());
    source(flow, "series", scan.identity().seriesUid());
    source(flow, "object", scan.identity().sopUid());
    source(flow, "SHA-256", scan.document().sha256());
  }

  private static void source(PdfFlow flow, String label, String text) throws IOException {
    flow.need(14);
    flow.canvas().text("P", Style.LABEL, PdfFlow.LEFT, flow.y(), label);
    flow.canvas().text("P", Style.TEXT, PdfFlow.LEFT + 60, flow.y(), text);
    flow.skip(14);
  }

  /** Writes what stands on every page: whose eye, the cautions, the page's number. */
  private static void furnish(PdfCanvas canvas, ScanReport report, int page, int pages)
      throws IOException {
    OctScan scan = report.scan();
    String eye = scan.laterality().orElseThrow().word().toUpperCase(Locale.ROOT) + " EYE";
    canvas.furniture(Style.SMALL_STRONG, PdfFlow.LEFT, HEAD, eye);
    String whose = "patient " + ScanFacts.patient(scan) + ", " + ScanFacts.acquired(scan);
    double from = PdfFlow.RIGHT - canvas.width(Style.LABEL, whose);
    canvas.furniture(Style.LABEL, from, HEAD, whose);
    canvas.rule(PdfFlow.LEFT, PdfFlow.RIGHT, HEAD + 6, 0.8);
    canvas.rule(PdfFlow.LEFT, PdfFlow.RIGHT, FOOT - 12, 0.8);
    canvas.furniture(Style.STRONG, PdfFlow.LEFT, FOOT, Cautions.LINE);
    String number = "page " + page + " of " + pages;
    double right = PdfFlow.RIGHT - canvas.width(Style.LABEL, number);
    canvas.furniture(Style.LABEL, right, FOOT, number);
    canvas.furniture(
        Style.SMALL,
        PdfFlow.LEFT,
        FOOT + 12,
        report.software() + "; object " + scan.identity().sopUid());
  }

  private static void describe(PDDocument document, ScanReport report) {
    OctScan scan = report.scan();
    PDDocumentInformation about = document.getDocumentInformation();
    about.setTitle(
        report.title() + ", " + ScanFacts.patient(scan) + ", " + ScanFacts.acquired(scan));
    about.setSubject(Cautions.LINE);
    about.setCreator(report.software());
    about.setProducer(report.software());
    scan.identity()
        .acquired()
        .ifPresent(
            time -> {
              Calendar calendar = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
              calendar.setTimeInMillis(time.toInstant(ZoneOffset.UTC).toEpochMilli());
              about.setCreationDate(calendar);
              about.setModificationDate(calendar);
            });
    PDViewerPreferences viewer = new PDViewerPreferences(new COSDictionary());
    viewer.setDisplayDocTitle(true);
    document.getDocumentCatalog().setViewerPreferences(viewer);
    document.getDocumentCatalog().setLanguage("en-GB");
    String digits = scan.document().sha256();
    document.setDocumentId(
        new BigInteger(digits.substring(0, Math.min(ID_DIGITS, digits.length())), 16).longValue());
  }
}

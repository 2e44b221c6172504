package org.isopach.job;

import java.io.IOException;
import org.isopach.report.pdf.ReportPdf;
import org.isopach.report.pdf.ScanReport;

/** A scan's report, set once for whoever asks first: its own file or the object round it. */
final class SetReport {
  private final MeasuredScan scan;
  private final Content content;
  private ScanReport report;
  private byte[] pdf;

  /** Says what stands in a report; drawing what it shows may take a while. */
  interface Content {
    ScanReport report();
  }

  SetReport(MeasuredScan scan, Content content) {
    this.scan = scan;
    this.content = content;
  }

  MeasuredScan scan() {
    return scan;
  }

  /** Returns the whole document; not to be changed. */
  synchronized byte[] pdf() throws IOException {
    if (pdf == null) {
      report = content.report();
      pdf = ReportPdf.of(report);
    }
    return pdf;
  }

  /** Returns its title. */
  synchronized String title() throws IOException {
    pdf();
    return report.title();
  }
}

package org.isopach.report.pdf;

import java.awt.image.BufferedImage;
import java.util.List;
import java.util.Objects;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.scan.OctScan;
import org.isopach.report.picture.ThicknessPicture;

/**
 * What a report is about: one scan of one eye at one visit.
 *
 * @param scan the scan; must say which eye it is
 * @param maps the layers shown as maps, at least one, in the order of the pages
 * @param tables every layer's sectors, the mapped ones among them
 * @param regions fluid and other regions, one table for each kind looked for
 * @param quality how good the scan is
 * @param findings what there is to say about it, what reading it said among it
 * @param lateralScale what lengths on the fundus were multiplied with against those stated
 * @param method how the numbers were made, sentences
 * @param software name and version of the program
 */
public record ScanReport(
    OctScan scan,
    List<Mapped> maps,
    List<SectorTable> tables,
    List<RegionTable> regions,
    ScanQuality quality,
    List<Finding> findings,
    double lateralScale,
    List<String> method,
    String software) {
  public ScanReport {
    Objects.requireNonNull(scan, "scan");
    maps = List.copyOf(maps);
    tables = List.copyOf(tables);
    Objects.requireNonNull(quality, "quality");
    regions = List.copyOf(regions);
    findings = List.copyOf(findings);
    method = List.copyOf(method);
    Objects.requireNonNull(software, "software");
    if (maps.isEmpty() || scan.laterality().isEmpty()) {
      throw new IllegalArgumentException("a report needs a map and an eye");
    }
  }

  /**
   * A layer's map and the sectors of that map.
   *
   * @param map thickness in µm
   * @param table its sectors
   * @param sheet their picture, as {@link ThicknessPicture#paint} draws it
   */
  public record Mapped(ThicknessMap map, SectorTable table, BufferedImage sheet) {
    public Mapped {
      Objects.requireNonNull(map, "map");
      Objects.requireNonNull(table, "table");
      Objects.requireNonNull(sheet, "sheet");
    }
  }

  /** Returns the report's title: what, which eye. */
  public String title() {
    return "Retinal thickness, " + scan.laterality().orElseThrow().word() + " eye";
  }
}

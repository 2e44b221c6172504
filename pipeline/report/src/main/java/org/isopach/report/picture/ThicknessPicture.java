package org.isopach.report.picture;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.map.ThicknessMap;

/**
 * The picture of a thickness map: colours, lines of equal thickness, the grid with its means.
 *
 * <p>The colours of a layer cover the same range on every picture, so that visits can be laid side
 * by side.
 */
public final class ThicknessPicture {
  private ThicknessPicture() {}

  /**
   * Draws a map and writes it as PNG.
   *
   * @param map thickness in µm
   * @param table the same map's sectors
   * @param software name and version of the program, for the foot of the sheet
   * @return the SHA-256 digest of the file
   */
  public static String write(Path target, ThicknessMap map, SectorTable table, String software)
      throws IOException {
    return PngFile.write(target, paint(map, table, software));
  }

  /** Draws a map as it would be written. */
  public static BufferedImage paint(ThicknessMap map, SectorTable table, String software) {
    return SheetPainter.paint(sheet(map, table, software));
  }

  static Sheet sheet(ThicknessMap map, SectorTable table, String software) {
    return new Sheet(
        "Retinal thickness " + PictureWords.layerTitle(map.layer()),
        PictureWords.sentence(PictureWords.layerWords(map.layer())) + ", along the A-scan",
        map.laterality(),
        ValueField.of(map.lattice(), map::micrometres),
        ValueScale.ofThickness(map.layer()),
        ColourRamp.THICKNESS,
        List.of(),
        sectors(table),
        new Sheet.Headings("SD", "covered"),
        table.sectors().stream().map(ThicknessPicture::row).toList(),
        facts(map, table),
        refusals(table),
        List.of("Object " + map.scan().sopUid(), PictureWords.imprint(software)));
  }

  private static List<SheetSector> sectors(SectorTable table) {
    List<SheetSector> drawn = new ArrayList<>();
    for (Sector sector : table.grid().sectors()) {
      Optional<String> value = table.sector(sector.name()).flatMap(result -> value(result, 0));
      drawn.add(SheetSector.of(sector, table.laterality(), value));
    }
    return drawn;
  }

  private static Optional<String> value(SectorResult result, int decimals) {
    return result instanceof Measured measured
        ? Optional.of(PictureWords.fixed(measured.meanUm(), decimals))
        : Optional.empty();
  }

  private static Sheet.Row row(SectorResult result) {
    String covered = PictureWords.percent(result.coveredFraction());
    String spread =
        result instanceof Measured measured ? PictureWords.fixed(measured.sdUm(), 1) : "";
    return new Sheet.Row(result.sector(), value(result, 1), spread, covered);
  }

  private static List<Sheet.Fact> facts(ThicknessMap map, SectorTable table) {
    return List.of(
        new Sheet.Fact("patient", PictureWords.patient(map.scan().patientId())),
        new Sheet.Fact("acquired", PictureWords.dateTime(map.scan().acquired())),
        new Sheet.Fact("grid", table.grid().name()),
        new Sheet.Fact("centre", PictureWords.centre(map.centre())),
        new Sheet.Fact(
            "centre point",
            value(table.centrePoint(), 1)
                .map(text -> text + " " + PictureWords.MICRO)
                .orElse("not measurable")),
        new Sheet.Fact("volume", volume(table)));
  }

  private static String volume(SectorTable table) {
    return table
        .sector(SectorGrid.TOTAL)
        .filter(Measured.class::isInstance)
        .map(Measured.class::cast)
        .map(
            total ->
                PictureWords.fixed(total.volumeMm3(), 3)
                    + " mm\u00B3 in "
                    + PictureWords.fixed(total.areaMm2(), 2)
                    + " mm\u00B2")
        .orElse("not measurable: the grid is not complete");
  }

  private static List<String> refusals(SectorTable table) {
    return table.sectors().stream()
        .filter(NotMeasurable.class::isInstance)
        .map(NotMeasurable.class::cast)
        .filter(refused -> !refused.sector().equals(SectorGrid.TOTAL))
        .map(refused -> PictureWords.refusal(refused.sector(), refused.detail()))
        .toList();
  }
}

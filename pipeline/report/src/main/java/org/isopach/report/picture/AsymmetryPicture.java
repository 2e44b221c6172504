package org.isopach.report.picture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.asymmetry.AsymmetryMap;
import org.isopach.analysis.asymmetry.AsymmetryTable;
import org.isopach.analysis.asymmetry.SectorAsymmetry;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;

/**
 * The picture of how two eyes differ, seen as a right eye: blue where the right one is thinner,
 * brown where it is thicker, pale where both are alike; the same range on every picture.
 */
public final class AsymmetryPicture {
  private AsymmetryPicture() {}

  /**
   * Draws the difference and writes it as PNG.
   *
   * @param map right minus left in µm
   * @param table the same by sectors
   * @param software name and version of the program, for the foot of the sheet
   * @return the SHA-256 digest of the file
   */
  public static String write(Path target, AsymmetryMap map, AsymmetryTable table, String software)
      throws IOException {
    return PngFile.write(target, SheetPainter.paint(sheet(map, table, software)));
  }

  static Sheet sheet(AsymmetryMap map, AsymmetryTable table, String software) {
    return new Sheet(
        "Right eye minus left eye " + PictureWords.layerTitle(table.layer()),
        "Seen as a right eye, the left one mirrored; plus is thicker in the right eye",
        Laterality.RIGHT,
        ValueField.of(map.lattice(), map::micrometres),
        ValueScale.ofAsymmetry(),
        ColourRamp.CHANGE,
        List.of(),
        sectors(table),
        new Sheet.Headings("right", "left"),
        table.sectors().stream().map(AsymmetryPicture::row).toList(),
        facts(table),
        refusals(table),
        List.of(
            "Right " + table.right().sopUid() + "; left " + table.left().sopUid(),
            PictureWords.imprint(software)));
  }

  private static List<SheetSector> sectors(AsymmetryTable table) {
    List<SheetSector> drawn = new ArrayList<>();
    for (Sector sector : table.grid().sectors()) {
      Optional<String> value = table.sector(sector.name()).flatMap(one -> value(one, 0));
      drawn.add(SheetSector.of(sector, Laterality.RIGHT, value));
    }
    return drawn;
  }

  private static Optional<String> value(SectorAsymmetry sector, int decimals) {
    return sector instanceof SectorAsymmetry.Given given
        ? Optional.of(PictureWords.signed(given.differenceUm(), decimals))
        : Optional.empty();
  }

  private static Sheet.Row row(SectorAsymmetry sector) {
    return sector instanceof SectorAsymmetry.Given given
        ? new Sheet.Row(
            sector.sector(),
            value(sector, 1),
            PictureWords.fixed(given.rightUm(), 1),
            PictureWords.fixed(given.leftUm(), 1))
        : new Sheet.Row(
            sector.sector(),
            Optional.empty(),
            "covered",
            PictureWords.percent(sector.coveredFraction()));
  }

  private static List<Sheet.Fact> facts(AsymmetryTable table) {
    return List.of(
        new Sheet.Fact("patient", PictureWords.patient(table.right().patientId())),
        new Sheet.Fact("right eye", PictureWords.dateTime(table.right().acquired())),
        new Sheet.Fact("left eye", PictureWords.dateTime(table.left().acquired())),
        new Sheet.Fact("grid", table.grid().name()),
        new Sheet.Fact("alignment", "fovea on fovea"),
        new Sheet.Fact("normal limits", "none published here"));
  }

  private static List<String> refusals(AsymmetryTable table) {
    return table.sectors().stream()
        .filter(SectorAsymmetry.Missing.class::isInstance)
        .map(SectorAsymmetry.Missing.class::cast)
        .filter(refused -> !refused.sector().equals(SectorGrid.TOTAL))
        .map(refused -> PictureWords.refusal(refused.sector(), refused.reason()))
        .toList();
  }
}

package org.isopach.report.picture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.change.SectorChange.NotMeasurableChange;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;

/**
 * The picture of a change between two visits: blue where the layer grew thinner, brown where it
 * grew thicker, pale where nothing changed; the same range on every picture.
 */
public final class ChangePicture {
  private ChangePicture() {}

  /**
   * Draws a difference and writes it as PNG.
   *
   * @param map follow-up minus baseline in µm
   * @param table the same change by sectors
   * @param alignment by what the two maps were put on one another
   * @param software name and version of the program, for the foot of the sheet
   * @return the SHA-256 digest of the file
   */
  public static String write(
      Path target, DifferenceMap map, ChangeTable table, String alignment, String software)
      throws IOException {
    return PngFile.write(target, SheetPainter.paint(sheet(map, table, alignment, software)));
  }

  static Sheet sheet(DifferenceMap map, ChangeTable table, String alignment, String software) {
    return new Sheet(
        "Change of retinal thickness " + PictureWords.layerTitle(table.layer()),
        "Follow-up minus baseline; plus is thicker, minus is thinner",
        table.laterality(),
        ValueField.of(map.lattice(), map::micrometres),
        ValueScale.ofChange(),
        ColourRamp.CHANGE,
        sectors(table),
        new Sheet.Headings("before", "after"),
        table.sectors().stream().map(ChangePicture::row).toList(),
        facts(table, alignment),
        refusals(table),
        List.of(
            "Object " + table.followUp().sopUid() + "; baseline " + table.baseline().sopUid(),
            PictureWords.imprint(software)));
  }

  private static List<SheetSector> sectors(ChangeTable table) {
    List<SheetSector> drawn = new ArrayList<>();
    for (Sector sector : table.grid().sectors()) {
      Optional<String> value = table.sector(sector.name()).flatMap(change -> value(change, 0));
      drawn.add(SheetSector.of(sector, table.laterality(), value));
    }
    return drawn;
  }

  private static Optional<String> value(SectorChange change, int decimals) {
    return change instanceof MeasuredChange measured
        ? Optional.of(PictureWords.signed(measured.changeUm(), decimals))
        : Optional.empty();
  }

  private static Sheet.Row row(SectorChange change) {
    return change instanceof MeasuredChange measured
        ? new Sheet.Row(
            change.sector(),
            value(change, 1),
            PictureWords.fixed(measured.baselineUm(), 1),
            PictureWords.fixed(measured.followUpUm(), 1))
        : new Sheet.Row(
            change.sector(),
            Optional.empty(),
            "covered",
            PictureWords.percent(change.coveredFraction()));
  }

  private static List<Sheet.Fact> facts(ChangeTable table, String alignment) {
    String days =
        table.days().isPresent() ? table.days().getAsLong() + " days" : "interval not known";
    return List.of(
        new Sheet.Fact("patient", PictureWords.patient(table.followUp().patientId())),
        new Sheet.Fact("baseline", PictureWords.dateTime(table.baseline().acquired())),
        new Sheet.Fact("follow-up", PictureWords.dateTime(table.followUp().acquired())),
        new Sheet.Fact("interval", days),
        new Sheet.Fact("grid", table.grid().name()),
        new Sheet.Fact("alignment", alignment),
        new Sheet.Fact(
            "centre point",
            value(table.centrePoint(), 1)
                .map(text -> text + " " + PictureWords.MICRO)
                .orElse("not measurable")));
  }

  private static List<String> refusals(ChangeTable table) {
    return table.sectors().stream()
        .filter(NotMeasurableChange.class::isInstance)
        .map(NotMeasurableChange.class::cast)
        .filter(refused -> !refused.sector().equals(SectorGrid.TOTAL))
        .map(refused -> PictureWords.refusal(refused.sector(), refused.detail()))
        .toList();
  }
}

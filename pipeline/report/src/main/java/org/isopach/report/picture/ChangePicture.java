package org.isopach.report.picture;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.change.ChangeMask;
import org.isopach.analysis.change.ChangeRegion;
import org.isopach.analysis.change.ChangeRegions.NotSought;
import org.isopach.analysis.change.ChangeRegions.Sought;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.change.SectorChange.NotMeasurableChange;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.report.table.AlignedChange;
import org.isopach.report.table.ChangeRegionFile;

/**
 * The picture of a change between two visits: blue where the layer grew thinner, brown where it
 * grew thicker, pale where nothing changed; the same range on every picture.
 */
public final class ChangePicture {
  private static final int MOST_REGIONS = 4;

  private ChangePicture() {}

  /**
   * Draws a difference and writes it as PNG.
   *
   * @param map follow-up minus baseline in µm
   * @param mask the cells that are beyond noise
   * @param change the same change by sectors and regions
   * @param software name and version of the program, for the foot of the sheet
   * @return the SHA-256 digest of the file
   */
  public static String write(
      Path target, DifferenceMap map, ChangeMask mask, AlignedChange change, String software)
      throws IOException {
    return PngFile.write(target, SheetPainter.paint(sheet(map, mask, change, software)));
  }

  static Sheet sheet(DifferenceMap map, ChangeMask mask, AlignedChange change, String software) {
    ChangeTable table = change.table();
    boolean judged = table.sectors().stream().anyMatch(one -> given(one).isPresent());
    return new Sheet(
        "Change of retinal thickness " + PictureWords.layerTitle(table.layer()),
        "Follow-up minus baseline; plus is thicker, minus is thinner",
        table.laterality(),
        ValueField.of(map.lattice(), map::micrometres),
        ValueScale.ofChange(),
        ColourRamp.CHANGE,
        change.regions() instanceof Sought sought ? MapOutline.of(mask, sought) : List.of(),
        sectors(table),
        judged ? new Sheet.Headings("95 % CI", "noise") : new Sheet.Headings("before", "after"),
        table.sectors().stream().map(one -> judged ? judgedRow(one) : row(one)).toList(),
        facts(change),
        notes(change),
        List.of(
            "Object " + table.followUp().sopUid() + "; baseline " + table.baseline().sopUid(),
            PictureWords.imprint(software)));
  }

  private static Optional<Given> given(SectorChange change) {
    return change instanceof MeasuredChange measured
            && measured.uncertainty() instanceof Given given
        ? Optional.of(given)
        : Optional.empty();
  }

  private static Sheet.Row judgedRow(SectorChange change) {
    Optional<Given> given = given(change);
    if (given.isEmpty()) {
      return change instanceof MeasuredChange
          ? new Sheet.Row(change.sector(), value(change, 1), "not known", "not known")
          : row(change);
    }
    return new Sheet.Row(
        change.sector(),
        value(change, 1),
        PictureWords.signed(given.get().lowUm(), 1)
            + " to "
            + PictureWords.signed(given.get().highUm(), 1),
        given.get().beyondNoise() ? "beyond" : "within");
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

  private static List<Sheet.Fact> facts(AlignedChange change) {
    ChangeTable table = change.table();
    String days =
        table.days().isPresent() ? table.days().getAsLong() + " days" : "interval not known";
    return List.of(
        new Sheet.Fact("patient", PictureWords.patient(table.followUp().patientId())),
        new Sheet.Fact("baseline", PictureWords.dateTime(table.baseline().acquired())),
        new Sheet.Fact("follow-up", PictureWords.dateTime(table.followUp().acquired())),
        new Sheet.Fact("interval", days),
        new Sheet.Fact("grid", table.grid().name()),
        new Sheet.Fact("alignment", change.alignment()),
        new Sheet.Fact("noise from", noise(table)),
        new Sheet.Fact(
            "centre point",
            value(table.centrePoint(), 1)
                .map(text -> text + " " + PictureWords.MICRO)
                .orElse("not measurable")));
  }

  private static String noise(ChangeTable table) {
    List<String> sources =
        table.sectors().stream()
            .flatMap(one -> given(one).stream())
            .map(given -> given.noise().source().code())
            .distinct()
            .toList();
    return sources.isEmpty() ? "not known" : String.join(", ", sources);
  }

  /** What the map says in words, then what was refused. */
  private static List<String> notes(AlignedChange change) {
    List<String> notes = new ArrayList<>();
    if (change.regions() instanceof Sought sought) {
      sought.regions().stream().limit(MOST_REGIONS).map(ChangePicture::words).forEach(notes::add);
      if (sought.regions().isEmpty()) {
        notes.add("No region of the map beyond measurement noise.");
      }
    } else {
      notes.add(
          "Regions beyond noise were not looked for: "
              + ((NotSought) change.regions()).reason()
              + ".");
    }
    change.table().sectors().stream()
        .filter(NotMeasurableChange.class::isInstance)
        .map(NotMeasurableChange.class::cast)
        .filter(refused -> !refused.sector().equals(SectorGrid.TOTAL))
        .map(refused -> PictureWords.refusal(refused.sector(), refused.detail()))
        .forEach(notes::add);
    return notes;
  }

  private static String words(ChangeRegion region) {
    return "Region " + region.number() + ": " + ChangeRegionFile.words(region) + ".";
  }
}

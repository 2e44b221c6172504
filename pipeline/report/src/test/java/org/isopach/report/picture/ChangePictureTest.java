package org.isopach.report.picture;

import static org.isopach.report.SampleMaps.map;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.time.LocalDateTime;
import java.util.Optional;
import org.isopach.analysis.change.ChangeMask;
import org.isopach.analysis.change.ChangeRegions;
import org.isopach.analysis.change.VisitChange;
import org.isopach.analysis.change.VisitComparer;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.colour.ColourScale;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.report.SampleMaps;
import org.isopach.report.SampleMaps.Surface;
import org.isopach.report.table.AlignedChange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChangePictureTest {
  @Test
  void paintsNoChangeNeutralAndWritesZeroWithoutASign() {
    Sheet sheet = sheet((x, y) -> 300);
    BufferedImage image = SheetPainter.paint(sheet);

    int neutral = ColourScale.diverging().rgb(0.5);
    int seen = image.getRGB((int) SheetPainter.MAP.xPx(0.3), (int) SheetPainter.MAP.yPx(-0.75));
    assertEquals(neutral, seen & 0xFFFFFF);
    assertEquals(Optional.of("0"), sheet.sectors().get(0).value());
    assertEquals(Optional.of("0.0"), sheet.rows().get(0).value());
  }

  @Test
  void writesGainAndLossWithTheirSigns() {
    Sheet sheet = sheet((x, y) -> 300 + 20 * Math.signum(x));

    assertEquals(Optional.of("+20"), value(sheet, "outer-nasal"));
    assertEquals(Optional.of("\u221220"), value(sheet, "outer-temporal"));
    assertTrue(sheet.facts().contains(new Sheet.Fact("interval", "91 days")));
  }

  @ParameterizedTest
  @CsvSource({"12.34,1,+12.3", "-12.34,1,\u221212.3", "-0.04,1,0.0", "0.04,1,0.0", "-0.4,0,0"})
  void signsOnlyWhatIsNotZero(double value, int decimals, String expected) {
    assertEquals(expected, PictureWords.signed(value, decimals));
  }

  private static Optional<String> value(Sheet sheet, String sector) {
    return sheet.sectors().stream()
        .filter(one -> one.name().equals(sector))
        .findFirst()
        .orElseThrow()
        .value();
  }

  private static Sheet sheet(Surface later) {
    AxialScale axial = AxialScale.ofMicrometresPerPixel(3.9);
    VisitMap before = new VisitMap(map(Laterality.RIGHT, (x, y) -> 300), axial);
    LocalDateTime time = SampleMaps.FIRST_VISIT.plusDays(91);
    VisitMap after =
        new VisitMap(
            map(SampleMaps.scan("2.25.2", time), Laterality.RIGHT, Layer.ILM_BM, later), axial);
    VisitChange change =
        new VisitComparer(new SectorTabulator())
            .compare(before, after, EtdrsGrids.ETDRS_1_3_6, 0.9);
    VisitChange.Compared compared = (VisitChange.Compared) change;
    AlignedChange aligned =
        new AlignedChange(
            compared.table(), "foveal-pit", 0.031, new ChangeRegions.NotSought("not asked"));
    return ChangePicture.sheet(
        compared.map(), ChangeMask.empty(compared.map().lattice()), aligned, "Isopach test");
  }
}

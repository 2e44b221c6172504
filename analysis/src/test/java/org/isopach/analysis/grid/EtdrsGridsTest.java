package org.isopach.analysis.grid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Geometry from DICOM PS3.17, annex UU.5; areas in closed form. */
class EtdrsGridsTest {
  private static final List<String> NAMES =
      List.of(
          "centre",
          "inner-superior",
          "inner-nasal",
          "inner-inferior",
          "inner-temporal",
          "outer-superior",
          "outer-nasal",
          "outer-inferior",
          "outer-temporal");

  @ParameterizedTest
  @CsvSource({
    "etdrs-1-3-6, 0.785398163, 1.570796327, 5.301437603, 28.274333882",
    "etdrs-1-2.22-3.45, 0.785398163, 0.771340, 1.369361, 9.348202"
  })
  void hasNineNamedSectorsOfKnownArea(
      String name, double centre, double inner, double outer, double whole) {
    SectorGrid grid = EtdrsGrids.ofName(name).orElseThrow();

    assertEquals(name, grid.name());
    assertEquals(NAMES, grid.sectors().stream().map(Sector::name).toList());
    for (Sector sector : grid.sectors()) {
      double expected =
          sector.name().equals("centre")
              ? centre
              : sector.name().startsWith("inner") ? inner : outer;
      assertEquals(expected, sector.areaMm2(), 5e-7, sector.name());
    }
    assertEquals(whole, grid.areaMm2(), 5e-7);
  }

  @Test
  void knowsNoOtherGrid() {
    assertTrue(EtdrsGrids.ofName("etdrs").isEmpty());
  }

  @ParameterizedTest
  @CsvSource({"0.5, 1.5, 3", "0.5, 1.11, 1.725"})
  void acceptsRadii(double centre, double inner, double outer) {
    assertEquals(3, rings(centre, inner, outer).sectors().size());
  }

  @ParameterizedTest
  @CsvSource({"1, 3, 6", "1, 2.22, 3.45", "0.5, 1.5, 6"})
  void refusesDiametersGivenAsRadii(double centre, double inner, double outer) {
    String message =
        assertThrows(IllegalArgumentException.class, () -> rings(centre, inner, outer))
            .getMessage();
    assertTrue(message.contains("looks like a diameter"), message);
  }

  @Test
  void refusesOverlapsAndRepeatedNames() {
    Sector disc = Sector.disc("a", 0.5);
    Sector wide = new Sector("b", 0.5, 1, -45, 45);
    Sector across = new Sector("c", 0.7, 2, 300, 330);
    Sector beyond = new Sector("d", 0.7, 2, 45, 90);

    assertRefused("overlaps", disc, wide, across);
    assertRefused("taken", disc, new Sector("a", 0.5, 1, 0, 90));
    assertRefused("taken", Sector.disc(SectorGrid.TOTAL, 0.5));
    assertRefused("at least one");
    assertEquals(3, new SectorGrid("own", List.of(disc, wide, beyond)).sectors().size());
  }

  @ParameterizedTest
  @CsvSource({
    "-1, 1, 0, 90",
    "1, 1, 0, 90",
    "2, 1, 0, 90",
    "0, 1, 90, 90",
    "0, 1, 0, 270",
    "0, 1, 90, 45",
    "0, 1, 0, NaN",
    "0, Infinity, 0, 90"
  })
  void refusesSectorsThatAreNone(double inner, double outer, double from, double to) {
    assertThrows(IllegalArgumentException.class, () -> new Sector("none", inner, outer, from, to));
  }

  private static SectorGrid rings(double centre, double inner, double outer) {
    return new SectorGrid(
        "rings",
        List.of(
            Sector.disc("centre", centre),
            new Sector("inner", centre, inner, 0, 360),
            new Sector("outer", inner, outer, 0, 360)));
  }

  private static void assertRefused(String words, Sector... sectors) {
    String message =
        assertThrows(IllegalArgumentException.class, () -> new SectorGrid("own", List.of(sectors)))
            .getMessage();
    assertTrue(message.contains(words), message);
  }
}

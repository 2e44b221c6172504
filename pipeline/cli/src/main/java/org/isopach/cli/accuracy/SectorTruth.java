package org.isopach.cli.accuracy;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.fixtures.phantom.MacularSector;
import org.isopach.fixtures.phantom.PhantomTruth;

/** True means of a phantom in the places that a sector table has, in µm, by the table's names. */
final class SectorTruth {
  /** The names of sectors, total and centre point, in the order of the table. */
  static final List<String> PLACES = places();

  private static final double CENTRE_RADIUS_MM = 0.05;
  private static final int RINGS = 8;
  private static final int DIRECTIONS = 32;

  private SectorTruth() {}

  static Map<String, Double> of(PhantomTruth truth, Layer layer) {
    Map<String, Double> named = sectors(truth, layer);
    double area = 0;
    double moment = 0;
    for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
      area += sector.areaMm2();
      moment += named.get(sector.name()) * sector.areaMm2();
    }
    named.put(SectorGrid.TOTAL, moment / area);
    named.put(SectorTabulator.CENTRE_POINT, centrePoint(truth, layer));
    return named;
  }

  /** Returns the nine sectors alone, each of the part that has the layer; NaN where none has. */
  static Map<String, Double> sectors(PhantomTruth truth, Layer layer) {
    Map<MacularSector, Double> means = truth.sectorMeansUm(layer);
    Map<String, Double> named = new LinkedHashMap<>();
    for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
      named.put(sector.name(), Objects.requireNonNull(means.get(macular(sector.name()))));
    }
    return named;
  }

  /** The table's centre point is the mean of a small disc, so is this. */
  private static double centrePoint(PhantomTruth truth, Layer layer) {
    FundusPoint fovea = truth.fovea();
    double sum = 0;
    for (int i = 0; i < RINGS; i++) {
      double r = CENTRE_RADIUS_MM * Math.sqrt((i + 0.5) / RINGS);
      for (int j = 0; j < DIRECTIONS; j++) {
        double angle = 2 * Math.PI * j / DIRECTIONS;
        sum +=
            truth.thicknessUm(
                layer, fovea.xMm() + r * Math.cos(angle), fovea.yMm() + r * Math.sin(angle));
      }
    }
    return sum / (RINGS * DIRECTIONS);
  }

  private static MacularSector macular(String name) {
    return switch (name) {
      case "centre" -> MacularSector.C;
      case "inner-superior" -> MacularSector.SI;
      case "inner-nasal" -> MacularSector.NI;
      case "inner-inferior" -> MacularSector.II;
      case "inner-temporal" -> MacularSector.TI;
      case "outer-superior" -> MacularSector.SO;
      case "outer-nasal" -> MacularSector.NO;
      case "outer-inferior" -> MacularSector.IO;
      case "outer-temporal" -> MacularSector.TO;
      default -> throw new IllegalArgumentException("no sector is called " + name);
    };
  }

  private static List<String> places() {
    List<String> names =
        new java.util.ArrayList<>(
            EtdrsGrids.ETDRS_1_3_6.sectors().stream().map(Sector::name).toList());
    names.add(SectorGrid.TOTAL);
    names.add(SectorTabulator.CENTRE_POINT);
    return List.copyOf(names);
  }
}

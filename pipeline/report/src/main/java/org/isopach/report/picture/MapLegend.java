package org.isopach.report.picture;

import java.util.List;

/**
 * What the colours and lines of a map stand for.
 *
 * @param lowUm value of the first colour, µm
 * @param highUm value of the last colour, µm
 * @param ticksUm values to be written at the bar, µm
 * @param lineUm distance of thin contour lines, µm
 * @param indexUm distance of heavy contour lines, µm
 * @param colours {@code 0xrrggbb} from low to high, evenly spaced
 */
public record MapLegend(
    double lowUm,
    double highUm,
    List<Double> ticksUm,
    double lineUm,
    double indexUm,
    List<Integer> colours) {
  public MapLegend {
    ticksUm = List.copyOf(ticksUm);
    colours = List.copyOf(colours);
  }
}

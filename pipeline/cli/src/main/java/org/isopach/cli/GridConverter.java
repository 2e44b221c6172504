package org.isopach.cli;

import java.util.stream.Collectors;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorGrid;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads a grid's name. */
final class GridConverter implements ITypeConverter<SectorGrid> {
  @Override
  public SectorGrid convert(String text) {
    return EtdrsGrids.ofName(text)
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "'"
                        + text
                        + "' is not a grid; there are "
                        + EtdrsGrids.all().stream()
                            .map(SectorGrid::name)
                            .collect(Collectors.joining(" and "))));
  }
}

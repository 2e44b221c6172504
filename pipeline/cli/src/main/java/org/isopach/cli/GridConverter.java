package org.isopach.cli;

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
                        + EtdrsGrids.ETDRS_1_3_6.name()
                        + " and "
                        + EtdrsGrids.ETDRS_1_2_22_3_45.name()));
  }
}

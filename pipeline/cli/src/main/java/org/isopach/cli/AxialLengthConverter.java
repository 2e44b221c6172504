package org.isopach.cli;

import org.isopach.analysis.geometry.OcularMagnification;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads an axial length in mm. */
final class AxialLengthConverter implements ITypeConverter<OcularMagnification> {
  @Override
  public OcularMagnification convert(String text) {
    try {
      return new OcularMagnification(Double.parseDouble(text));
    } catch (NumberFormatException e) {
      throw new TypeConversionException("'" + text + "' is not a length in mm");
    } catch (IllegalArgumentException e) {
      throw new TypeConversionException(e.getMessage());
    }
  }
}

package org.isopach.cli;

import org.isopach.analysis.eye.Laterality;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads an eye: R or L. */
final class LateralityConverter implements ITypeConverter<Laterality> {
  @Override
  public Laterality convert(String text) {
    return Laterality.ofCode(text)
        .orElseThrow(() -> new TypeConversionException("'" + text + "' is no eye; write R or L"));
  }
}

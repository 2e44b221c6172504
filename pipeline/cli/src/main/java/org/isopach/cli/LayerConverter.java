package org.isopach.cli;

import java.util.stream.Collectors;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads a layer's full or short name. */
final class LayerConverter implements ITypeConverter<Layer> {
  @Override
  public Layer convert(String text) {
    return LayerCatalogue.ofWord(text)
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "'"
                        + text
                        + "' is not a layer; there are "
                        + LayerCatalogue.ALL.stream()
                            .map(LayerCatalogue::shortName)
                            .collect(Collectors.joining(", "))));
  }
}

package org.isopach.cli;

import java.util.stream.Collectors;
import org.isopach.analysis.layer.Layer;
import org.isopach.job.JobRequest;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads a layer's name. */
final class LayerConverter implements ITypeConverter<Layer> {
  @Override
  public Layer convert(String text) {
    return JobRequest.ALL_LAYERS.stream()
        .filter(layer -> layer.name().equals(text))
        .findFirst()
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "'"
                        + text
                        + "' is not a layer; there are "
                        + JobRequest.ALL_LAYERS.stream()
                            .map(Layer::name)
                            .collect(Collectors.joining(", "))));
  }
}

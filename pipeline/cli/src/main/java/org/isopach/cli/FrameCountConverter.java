package org.isopach.cli;

import org.isopach.job.FrameOutputs;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads how many frames of a scan to draw. */
final class FrameCountConverter implements ITypeConverter<Integer> {
  @Override
  public Integer convert(String text) {
    if (text.equals("all")) {
      return FrameOutputs.ALL_FRAMES;
    }
    if (!text.matches("[1-9][0-9]{0,5}")) {
      throw new TypeConversionException("'" + text + "' is not a number of frames or 'all'");
    }
    return Integer.parseInt(text);
  }
}

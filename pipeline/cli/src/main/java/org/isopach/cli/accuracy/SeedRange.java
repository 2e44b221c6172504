package org.isopach.cli.accuracy;

import java.util.List;
import java.util.stream.LongStream;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/**
 * The seeds of the eyes to measure.
 *
 * @param from the first
 * @param to the last
 */
record SeedRange(long from, long to) {
  SeedRange {
    if (from > to) {
      throw new IllegalArgumentException("the first seed " + from + " is beyond the last " + to);
    }
  }

  List<Long> seeds() {
    return LongStream.rangeClosed(from, to).boxed().toList();
  }

  /** Reads {@code FROM..TO}. */
  static final class Converter implements ITypeConverter<SeedRange> {
    @Override
    public SeedRange convert(String text) {
      String[] ends = text.split("\\.\\.", 2);
      try {
        return new SeedRange(Long.parseLong(ends[0]), Long.parseLong(ends[ends.length - 1]));
      } catch (IllegalArgumentException e) {
        throw new TypeConversionException("'" + text + "' is no range of seeds like 3000..3049");
      }
    }
  }
}

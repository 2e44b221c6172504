package org.isopach.cli;

import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.isopach.analysis.region.RegionKind;
import org.isopach.job.CrossCheckRequest.SegmentMeaning;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads what a segment's code means, such as {@code SCT:123=subretinal-fluid}. */
final class SegmentConverter implements ITypeConverter<SegmentMeaning> {
  private static final Pattern FORM = Pattern.compile("([^:=]+):([^=]+)=(.+)");

  @Override
  public SegmentMeaning convert(String text) {
    Matcher matcher = FORM.matcher(text);
    if (!matcher.matches()) {
      throw new TypeConversionException(
          "'" + text + "' is not of the form SCHEME:CODE=KIND, such as SCT:123=subretinal-fluid");
    }
    return new SegmentMeaning(matcher.group(1), matcher.group(2), kind(matcher.group(3)));
  }

  private static RegionKind kind(String word) {
    return Arrays.stream(RegionKind.values())
        .filter(kind -> kind.code().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "'"
                        + word
                        + "' is no kind of region; there are "
                        + Arrays.stream(RegionKind.values())
                            .map(RegionKind::code)
                            .collect(Collectors.joining(", "))));
  }
}

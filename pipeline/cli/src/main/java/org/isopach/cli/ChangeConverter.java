package org.isopach.cli;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.isopach.job.CrossCheckRequest.ChangeMeaning;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads what a map's code is the change of, such as {@code 99GANNET:D-7=ILM-RPE}. */
final class ChangeConverter implements ITypeConverter<ChangeMeaning> {
  private static final Pattern FORM = Pattern.compile("([^:=]+):([^=]+)=(.+)");

  @Override
  public ChangeMeaning convert(String text) {
    Matcher matcher = FORM.matcher(text);
    if (!matcher.matches()) {
      throw new TypeConversionException(
          "'" + text + "' is not of the form SCHEME:CODE=LAYER, such as 99LOCAL:D-7=ILM-RPE");
    }
    return new ChangeMeaning(
        matcher.group(1), matcher.group(2), new LayerConverter().convert(matcher.group(3)));
  }
}

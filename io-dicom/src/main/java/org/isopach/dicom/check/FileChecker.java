package org.isopach.dicom.check;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.read.HeaderParser;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Judges objects in files. Private groups, icons, single values above 1 MiB and what follows the
 * pixel data are not looked at.
 */
public final class FileChecker {
  private static final Optional<Long> FLOAT_BITS = Optional.of(32L);

  private final HeaderParser parser;
  private final IodChecker checker;

  private FileChecker(HeaderParser parser, IodChecker checker) {
    this.parser = Objects.requireNonNull(parser, "parser");
    this.checker = Objects.requireNonNull(checker, "checker");
  }

  /** Returns a checker with the project's tables. */
  public static FileChecker standard() {
    return new FileChecker(new PixelMedObjectReader(), IodChecker.standard());
  }

  /**
   * Returns the judgement of the object in a file.
   *
   * @throws ObjectDefect when it cannot be parsed at all
   * @throws IOException when the file cannot be read
   */
  public CheckReport check(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, parser);
    PixelContent pixels = object.pixels().map(FileChecker::content).orElseGet(PixelContent::none);
    boolean floats = Values.whole(object.attributes(), Tags.BITS_ALLOCATED).equals(FLOAT_BITS);
    return checker.check(object.attributes(), floats ? pixels.asFloats() : pixels);
  }

  private static PixelContent content(PixelLocation location) {
    return location.inFragments()
        ? PixelContent.compressed()
        : PixelContent.ofBytes(location.length());
  }
}

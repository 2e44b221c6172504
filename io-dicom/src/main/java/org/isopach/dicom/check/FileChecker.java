package org.isopach.dicom.check;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.dicom.data.Dataset;
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

  private static final long LARGE = 1L << 20;

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
    CheckReport report = checker.check(object.attributes(), floats ? pixels.asFloats() : pixels);
    return largeDocument(file, object.attributes()) ? withoutDocument(report) : report;
  }

  /** A large document is not read; by its stated length and the file's it can be there. */
  private static boolean largeDocument(Path file, Dataset attributes) throws IOException {
    long length = Values.whole(attributes, Tags.ENCAPSULATED_DOCUMENT_LENGTH).orElse(0L);
    return length > LARGE && Files.size(file) > length;
  }

  private static CheckReport withoutDocument(CheckReport report) {
    String path = Collector.path("", Tags.ENCAPSULATED_DOCUMENT);
    List<Unchecked> unchecked = new ArrayList<>(report.unchecked());
    unchecked.add(new Unchecked(path, "values above 1 MiB are not read"));
    return new CheckReport(
        report.violations().stream().filter(one -> !one.path().equals(path)).toList(),
        List.copyOf(unchecked));
  }

  private static PixelContent content(PixelLocation location) {
    return location.inFragments()
        ? PixelContent.compressed()
        : PixelContent.ofBytes(location.length());
  }
}

package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.pixel.FrameReader;
import org.isopach.dicom.pixel.PixelFormat;

/**
 * An object with its attributes parsed and its pixel data found.
 *
 * @param location where the file lies, as the user named it
 * @param source its bytes; unpacked when deflated
 * @param syntax its transfer syntax
 * @param attributes everything before Pixel Data but for private groups, icons and large values
 * @param pixels where the pixel data lie, or empty when there are none
 * @param leftOut tags of the private attributes, icons and large values before Pixel Data that are
 *     not among the attributes, one for each that is there
 */
public record ParsedObject(
    String location,
    ByteSource source,
    TransferSyntax syntax,
    Dataset attributes,
    Optional<PixelLocation> pixels,
    List<Integer> leftOut) {
  public ParsedObject {
    leftOut = List.copyOf(leftOut);
  }

  /**
   * Parses a file.
   *
   * @throws ObjectDefect whatever keeps the object from being parsed
   * @throws IOException when the file cannot be read
   */
  public static ParsedObject of(Path path, HeaderParser parser) throws IOException, ObjectDefect {
    ObjectSniff sniff = ObjectSniff.of(FileBytes.of(path));
    TransferSyntax syntax =
        sniff
            .syntax()
            .orElseThrow(
                () ->
                    new ObjectDefect(
                        FindingKind.UNSUPPORTED_ENCODING,
                        "the transfer syntax " + sniff.transferSyntaxUid() + " is not read"));
    HeaderScan scan = HeaderScan.of(sniff.source(), sniff.datasetStart(), Encoding.of(syntax));
    Dataset attributes = parser.parse(scan.attributes(), syntax);
    scan.requireAll(attributes);
    return new ParsedObject(
        path.toString(), sniff.source(), syntax, attributes, scan.pixels(), scan.leftOut());
  }

  /**
   * Returns the tags of the attributes behind the pixel data, which are never read. What cannot be
   * told apart ends the list, and so does the millionth.
   *
   * @throws IOException when the file cannot be read
   */
  public List<Integer> behindPixels() throws IOException {
    return pixels.isPresent() ? TrailingTags.of(this, pixels.get()) : List.of();
  }

  /**
   * Returns where the pixel data lie.
   *
   * @throws ObjectDefect PIXEL_DATA_SHORT when there are none
   */
  PixelLocation requirePixels() throws ObjectDefect {
    return pixels.orElseThrow(
        () -> new ObjectDefect(FindingKind.PIXEL_DATA_SHORT, "there is no Pixel Data (7FE0,0010)"));
  }

  /**
   * Opens the frames.
   *
   * @param format how values are stored
   * @param count how many frames there are said to be
   * @throws ObjectDefect when there are not as many, or they cannot be read
   */
  FrameSource frames(PixelFormat format, int count) throws ObjectDefect, IOException {
    return FrameReader.open(location, source, requirePixels(), syntax, format, count);
  }
}

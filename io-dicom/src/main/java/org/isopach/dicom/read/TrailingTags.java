package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** Steps over what stands behind pixel data; only heads are looked at. */
final class TrailingTags {
  /** Item, and what ends a sequence: tag and length. */
  private static final int ITEM_HEAD = 8;

  private TrailingTags() {}

  static List<Integer> of(ParsedObject object, PixelLocation pixels) throws IOException {
    List<Integer> tags = new ArrayList<>();
    try (HeldBytes held = object.source().hold()) {
      ByteWindow bytes = new ByteWindow(held);
      Encoding encoding = Encoding.of(object.syntax());
      StructureWalk walk = new StructureWalk(bytes);
      long at = pixels.inFragments() ? endOfFragments(bytes, pixels, encoding) : end(pixels);
      while (at < bytes.size() && tags.size() < HeaderScan.MOST_LEFT_OUT) {
        ElementHead head = ElementHead.at(bytes, at, encoding);
        tags.add(head.tag());
        at = walk.endOf(head, encoding, bytes.size());
      }
    } catch (EOFException | ObjectDefect e) {
      // Not read by anything, and never copied: what can be told apart is enough.
      return tags;
    }
    return tags;
  }

  private static long end(PixelLocation pixels) {
    return pixels.offset() + pixels.length();
  }

  private static long endOfFragments(ByteWindow bytes, PixelLocation pixels, Encoding encoding)
      throws IOException {
    long at = pixels.offset();
    while (bytes.tag(at, encoding.bigEndian()) == Tag.ITEM) {
      at += ITEM_HEAD + bytes.u32(at + Integer.BYTES, encoding.bigEndian());
    }
    return at + ITEM_HEAD;
  }
}

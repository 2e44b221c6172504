package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Tags;

/**
 * Steps over attributes, sequences and fragments by their lengths alone, and refuses lengths that
 * do not fit: what comes after may then trust them.
 */
final class StructureWalk {
  private static final int DEEPEST = 24;

  private final ByteWindow bytes;

  StructureWalk(ByteWindow bytes) {
    this.bytes = bytes;
  }

  /**
   * Returns the position after the value of an attribute, having checked everything inside it.
   *
   * @param limit where the enclosing item or file ends
   */
  long endOf(ElementHead head, Encoding encoding, long limit) throws IOException, ObjectDefect {
    return endOf(head, encoding, limit, 0);
  }

  private long endOf(ElementHead head, Encoding encoding, long limit, int depth)
      throws IOException, ObjectDefect {
    if (depth > DEEPEST) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE,
          head.name() + " is nested more than " + DEEPEST + " deep");
    }
    if (!head.sound()) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE,
          head.name() + " has the unknown value representation \"" + printable(head.vr()) + "\"");
    }
    if (!head.undefinedLength() && head.end() > limit) {
      throw tooLong(head, limit);
    }
    if (head.undefinedLength() && head.tag() == Tags.PIXEL_DATA) {
      return endOfFragments(head, encoding);
    }
    Encoding inside = head.vr().equals("UN") ? Encoding.IMPLICIT_LITTLE : encoding;
    boolean sequence =
        head.vr().equals("SQ")
            || head.undefinedLength()
            || (maySequence(head) && startsWithItem(head, inside));
    if (!sequence) {
      return head.end();
    }
    return endOfItems(head, inside, limit, depth);
  }

  /** Returns whether a parser may take the value for a sequence by its tag alone. */
  private static boolean maySequence(ElementHead head) {
    return head.vr().isEmpty() || (head.vr().equals("UN") && !head.privateGroup());
  }

  private boolean startsWithItem(ElementHead head, Encoding encoding) throws IOException {
    return head.length() >= 8 && bytes.tag(head.valueStart(), encoding.bigEndian()) == Tag.ITEM;
  }

  private long endOfItems(ElementHead sequence, Encoding encoding, long limit, int depth)
      throws IOException, ObjectDefect {
    long end = sequence.undefinedLength() ? limit : sequence.end();
    long at = sequence.valueStart();
    while (at < end) {
      ElementHead item = head(at, encoding, sequence);
      if (item.tag() == Tag.SEQUENCE_END && sequence.undefinedLength()) {
        return item.valueStart();
      }
      if (item.tag() != Tag.ITEM) {
        throw new ObjectDefect(
            FindingKind.MALFORMED_ATTRIBUTE,
            sequence.name() + " holds " + item.name() + " where an item was expected");
      }
      if (!item.undefinedLength() && item.end() > end) {
        throw tooLong(item, end);
      }
      at = endOfItem(item, encoding, end, depth);
    }
    if (sequence.undefinedLength()) {
      throw new ObjectDefect(
          FindingKind.TRUNCATED, "the file ends within the sequence " + sequence.name());
    }
    return end;
  }

  private long endOfItem(ElementHead item, Encoding encoding, long limit, int depth)
      throws IOException, ObjectDefect {
    long end = item.undefinedLength() ? limit : item.end();
    long at = item.valueStart();
    while (at < end) {
      ElementHead head = head(at, encoding, item);
      if (head.tag() == Tag.ITEM_END && item.undefinedLength()) {
        return head.valueStart();
      }
      at = endOf(head, encoding, end, depth + 1);
    }
    if (item.undefinedLength()) {
      throw new ObjectDefect(FindingKind.TRUNCATED, "the file ends within an item");
    }
    return end;
  }

  private long endOfFragments(ElementHead pixels, Encoding encoding)
      throws IOException, ObjectDefect {
    long at = pixels.valueStart();
    while (true) {
      ElementHead item = head(at, encoding, pixels);
      if (item.tag() == Tag.SEQUENCE_END) {
        return item.valueStart();
      }
      if (item.tag() != Tag.ITEM || item.undefinedLength() || item.end() > bytes.size()) {
        throw new ObjectDefect(
            FindingKind.TRUNCATED, "the fragments of " + pixels.name() + " are cut short");
      }
      at = item.end();
    }
  }

  private ElementHead head(long at, Encoding encoding, ElementHead within)
      throws IOException, ObjectDefect {
    try {
      return ElementHead.at(bytes, at, encoding);
    } catch (EOFException e) {
      throw new ObjectDefect(FindingKind.TRUNCATED, "the file ends within " + within.name(), e);
    }
  }

  private ObjectDefect tooLong(ElementHead head, long limit) {
    String detail =
        head.name()
            + " claims "
            + head.length()
            + " bytes where "
            + Math.max(0, limit - head.valueStart())
            + " are left";
    boolean pastFile = head.end() > bytes.size();
    return new ObjectDefect(
        pastFile ? FindingKind.TRUNCATED : FindingKind.MALFORMED_ATTRIBUTE, detail);
  }

  private static String printable(String vr) {
    return vr.replaceAll("[^\\x20-\\x7e]", "?");
  }
}

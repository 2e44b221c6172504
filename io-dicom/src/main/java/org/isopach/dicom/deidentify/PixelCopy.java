package org.isopach.dicom.deidentify;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.ByteSource;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;

/** The pixel data of an object, whole. */
final class PixelCopy {
  private static final int MOST = 1 << 30;
  private static final int ITEM_HEAD = 8;
  private static final int ITEM = 0xE000FFFE;
  private static final int DELIMITER = 0xE0DDFFFE;

  private PixelCopy() {}

  /** Returns native pixels in little endian words, or fragments with items and delimiter. */
  static byte[] of(ParsedObject object) throws IOException, Refusal {
    if (object.pixels().isEmpty()) {
      return new byte[0];
    }
    PixelLocation where = object.pixels().get();
    long length = where.inFragments() ? fragments(object.source(), where) : where.length();
    if (length > MOST) {
      throw new Refusal("the pixel data exceed 1 GiB");
    }
    byte[] bytes = object.source().read(where.offset(), (int) length);
    if (object.syntax() == TransferSyntax.EXPLICIT_BIG && where.words()) {
      for (int i = 0; i + 1 < bytes.length; i += 2) {
        byte high = bytes[i];
        bytes[i] = bytes[i + 1];
        bytes[i + 1] = high;
      }
    }
    return bytes;
  }

  private static long fragments(ByteSource source, PixelLocation where)
      throws IOException, Refusal {
    long at = where.offset();
    try {
      while (true) {
        ByteBuffer head =
            ByteBuffer.wrap(source.read(at, ITEM_HEAD)).order(ByteOrder.LITTLE_ENDIAN);
        int tag = head.getInt();
        long length = Integer.toUnsignedLong(head.getInt());
        at += ITEM_HEAD;
        if (tag == DELIMITER) {
          return at - where.offset();
        }
        if (tag != ITEM || at + length > source.size()) {
          throw new Refusal("the fragments of the pixel data are damaged");
        }
        at += length;
      }
    } catch (EOFException e) {
      throw new Refusal("the fragments of the pixel data end too early");
    }
  }
}

package org.isopach.dicom.deidentify;

import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.ByteSource;
import org.isopach.dicom.read.HeldBytes;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;

/** Copies the pixel data of an object, a piece at a time, in explicit little endian. */
final class PixelStream {
  private static final String UNREADABLE = "it cannot be read";
  private static final int PIECE = 1 << 20;
  private static final int ITEM_HEAD = 8;
  private static final int ITEM = 0xE000FFFE;
  private static final int DELIMITER = 0xE0DDFFFE;
  private static final int UNDEFINED = -1;
  private static final int PIXEL_DATA = 0x00107FE0;
  private static final int FLOAT_PIXEL_DATA = 0x00087FE0;

  private final ParsedObject object;
  private final PixelLocation where;
  private final KnownTexts known;
  private final TextSearch search;

  /** Looks once more at cells that were turned: text may have been swapped with them. */
  private final TextSearch turned;

  private PixelStream(ParsedObject object, KnownTexts known) {
    this.object = object;
    this.where = object.pixels().orElseThrow();
    this.known = known;
    this.search = known.inPixels();
    this.turned = known.inPixels();
  }

  /**
   * Copies an object's pixel data element, head and all; nothing when it has none.
   *
   * @throws Refusal when fragments are damaged, or an identifier stands in the pixel data as text
   */
  static void copy(ParsedObject object, KnownTexts known, OutputStream out)
      throws IOException, Refusal {
    if (object.pixels().isEmpty()) {
      return;
    }
    PixelStream stream = new PixelStream(object, known);
    try (HeldBytes source = open(object)) {
      if (stream.where.inFragments()) {
        stream.fragments(source, out);
      } else {
        stream.cells(source, out);
      }
    }
    if (stream.search.found() || stream.turned.found()) {
      throw textFound();
    }
  }

  private static HeldBytes open(ParsedObject object) throws Refusal {
    try {
      return object.source().hold();
    } catch (IOException e) {
      throw new Refusal(UNREADABLE);
    }
  }

  private void cells(ByteSource source, OutputStream out) throws IOException, Refusal {
    long length = where.length() + (where.length() & 1);
    String vr = where.floats() ? "OF" : where.words() ? "OW" : "OB";
    head(out, where.floats() ? FLOAT_PIXEL_DATA : PIXEL_DATA, vr, (int) length);
    boolean big = object.syntax() == TransferSyntax.EXPLICIT_BIG;
    int cell = where.floats() ? Float.BYTES : where.words() ? Short.BYTES : 1;
    run(source, where.offset(), where.length(), big ? cell : 1, out);
    if (length > where.length()) {
      out.write(0);
    }
  }

  /** Copies bytes, those of each cell turned round. */
  private void run(ByteSource source, long from, long length, int cell, OutputStream out)
      throws IOException, Refusal {
    byte[] piece = new byte[(int) Math.min(PIECE, length)];
    for (long done = 0; done < length; done += piece.length) {
      int count = (int) Math.min(piece.length, length - done);
      read(source, from + done, piece, count);
      search.feed(piece, count);
      for (int i = 0; cell > 1 && i + cell <= count; i += cell) {
        turn(piece, i, cell);
      }
      if (cell > 1) {
        turned.feed(piece, count);
      }
      out.write(piece, 0, count);
    }
  }

  /** Reads from the source; what goes wrong there is this object's alone. */
  private void read(ByteSource source, long from, byte[] into, int count) throws Refusal {
    try {
      source.read(from, into, 0, count);
    } catch (EOFException e) {
      String what = where.inFragments() ? "the fragments of the pixel data" : "the pixel data";
      throw new Refusal(what + " end too early");
    } catch (IOException e) {
      throw new Refusal(UNREADABLE);
    }
  }

  private byte[] read(ByteSource source, long from, int count) throws Refusal {
    byte[] bytes = new byte[count];
    read(source, from, bytes, count);
    return bytes;
  }

  private static void turn(byte[] bytes, int at, int cell) {
    for (int i = 0; i < cell / 2; i++) {
      byte first = bytes[at + i];
      bytes[at + i] = bytes[at + cell - 1 - i];
      bytes[at + cell - 1 - i] = first;
    }
  }

  private void fragments(ByteSource source, OutputStream out) throws IOException, Refusal {
    head(out, PIXEL_DATA, "OB", UNDEFINED);
    long at = where.offset();
    while (true) {
      byte[] bytes = read(source, at, ITEM_HEAD);
      ByteBuffer head = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
      int tag = head.getInt();
      long length = Integer.toUnsignedLong(head.getInt());
      at += ITEM_HEAD;
      if (tag == DELIMITER) {
        out.write(new byte[] {(byte) 0xfe, (byte) 0xff, (byte) 0xdd, (byte) 0xe0, 0, 0, 0, 0});
        return;
      }
      if (tag != ITEM || at + length > source.size()) {
        throw new Refusal("the fragments of the pixel data are damaged");
      }
      refuseText(source, at, length);
      out.write(bytes);
      run(source, at, length, 1, out);
      at += length;
    }
  }

  private void refuseText(ByteSource source, long at, long length) throws Refusal {
    try {
      CodeStreamComments.check(source, at, length, known);
    } catch (IOException e) {
      throw new Refusal(UNREADABLE);
    }
  }

  static Refusal textFound() {
    return new Refusal("the pixel data hold an identifier as text");
  }

  private static void head(OutputStream out, int tag, String vr, int length) throws IOException {
    ByteBuffer head = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN).putInt(tag);
    head.put((byte) vr.charAt(0)).put((byte) vr.charAt(1)).putShort((short) 0).putInt(length);
    out.write(head.array());
  }
}

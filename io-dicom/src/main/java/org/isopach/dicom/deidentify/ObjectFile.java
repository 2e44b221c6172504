package org.isopach.dicom.deidentify;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.ParsedObject;

/** Writes clean attributes and, behind them, the pixel data of the object they were made from. */
final class ObjectFile {
  private static final int PREFIX_END = 132;
  private static final int GROUP_LENGTH = 12;

  private ObjectFile() {}

  /**
   * Writes a file; compressed pixel data keep their transfer syntax (PS3.5, A.4).
   *
   * @param part a name that nobody takes for a finished file
   */
  static void write(
      DicomObjectWriter writer, Path part, Dataset clean, ParsedObject object, KnownTexts known)
      throws IOException, Refusal {
    byte[] head = attributes(writer, part, clean);
    boolean compressed = object.pixels().isPresent() && object.syntax().encapsulated();
    byte[] meta = compressed ? withSyntax(meta(head), object.syntax()) : meta(head);
    ByteBuffer start = ByteBuffer.wrap(Arrays.copyOf(head, PREFIX_END + GROUP_LENGTH));
    start.order(ByteOrder.LITTLE_ENDIAN).putInt(start.capacity() - Integer.BYTES, meta.length);
    int body = PREFIX_END + GROUP_LENGTH + meta(head).length;
    try (FileChannel channel =
            FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel), 1 << 16)) {
      out.write(start.array());
      out.write(meta);
      out.write(head, body, head.length - body);
      PixelStream.copy(object, known, out);
      out.flush();
      channel.force(true);
    }
  }

  private static byte[] attributes(DicomObjectWriter writer, Path part, Dataset clean)
      throws IOException {
    Path plain = part.resolveSibling(part.getFileName() + ".plain.part");
    try {
      writer.write(plain, clean, new byte[0]);
      return Files.readAllBytes(plain);
    } finally {
      Files.deleteIfExists(plain);
    }
  }

  private static byte[] meta(byte[] file) {
    int start = PREFIX_END + GROUP_LENGTH;
    ByteBuffer ints = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    return Arrays.copyOfRange(file, start, start + ints.getInt(start - Integer.BYTES));
  }

  /** Returns file meta information with another Transfer Syntax UID (0002,0010). */
  private static byte[] withSyntax(byte[] meta, TransferSyntax syntax) throws IOException {
    String text = new String(meta, StandardCharsets.ISO_8859_1);
    int at = text.indexOf("\u0002\0\u0010\0UI");
    if (at < 0) {
      throw new IOException("the file meta information has no transfer syntax");
    }
    int length = meta[at + 6] & 0xff;
    String uid = syntax.uid().length() % 2 == 0 ? syntax.uid() : syntax.uid() + "\0";
    String made =
        text.substring(0, at + 6)
            + (char) uid.length()
            + "\0"
            + uid
            + text.substring(at + 8 + length);
    return made.getBytes(StandardCharsets.ISO_8859_1);
  }
}

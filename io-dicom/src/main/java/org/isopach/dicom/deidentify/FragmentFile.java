package org.isopach.dicom.deidentify;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.TransferSyntax;

/** Writes an object whose pixel data stay compressed (PS3.5, A.4). */
final class FragmentFile {
  private static final int PREFIX_END = 132;
  private static final int GROUP_LENGTH = 12;
  private static final byte[] PIXEL_DATA = {
    (byte) 0xe0, 0x7f, 0x10, 0, 'O', 'B', 0, 0, (byte) 0xff, (byte) 0xff, (byte) 0xff, (byte) 0xff
  };

  private FragmentFile() {}

  static void write(
      DicomObjectWriter writer, Path target, Dataset data, TransferSyntax syntax, byte[] fragments)
      throws IOException {
    Path plain = target.resolveSibling("." + target.getFileName() + ".plain.part");
    Path part = target.resolveSibling("." + target.getFileName() + ".whole.part");
    try {
      writer.write(plain, data, new byte[0]);
      byte[] file = Files.readAllBytes(plain);
      ByteBuffer ints = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
      int metaStart = PREFIX_END + GROUP_LENGTH;
      int metaEnd = metaStart + ints.getInt(metaStart - Integer.BYTES);
      byte[] meta = withSyntax(Arrays.copyOfRange(file, metaStart, metaEnd), syntax);
      ints.putInt(metaStart - Integer.BYTES, meta.length);
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      out.write(file, 0, metaStart);
      out.writeBytes(meta);
      out.write(file, metaEnd, file.length - metaEnd);
      out.writeBytes(PIXEL_DATA);
      out.writeBytes(fragments);
      Files.write(part, out.toByteArray());
      Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(plain);
      Files.deleteIfExists(part);
    }
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

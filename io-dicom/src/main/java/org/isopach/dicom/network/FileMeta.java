package org.isopach.dicom.network;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import org.isopach.dicom.toolkit.PixelMedObjectWriter;

/**
 * Preamble and file meta information of a received object (PS3.10, 7.1). They depend on the object
 * alone, so that an object received twice gives the same file.
 */
public final class FileMeta {
  private static final int PREAMBLE = 128;

  private FileMeta() {}

  /** Returns the bytes before the data set. */
  public static byte[] of(String sopClass, String sopInstance, String transferSyntax) {
    ByteArrayOutputStream meta = new ByteArrayOutputStream();
    meta.writeBytes(
        ByteBuffer.allocate(14)
            .order(ByteOrder.LITTLE_ENDIAN)
            .putShort((short) 2)
            .putShort((short) 1)
            .put(ascii("OB"))
            .putShort((short) 0)
            .putInt(2)
            .put((byte) 0)
            .put((byte) 1)
            .array());
    text(meta, 0x02, "UI", sopClass);
    text(meta, 0x03, "UI", sopInstance);
    text(meta, 0x10, "UI", transferSyntax);
    text(meta, 0x12, "UI", PixelMedObjectWriter.IMPLEMENTATION_CLASS_UID);
    text(meta, 0x13, "SH", PixelMedObjectWriter.IMPLEMENTATION_VERSION_NAME);
    ByteBuffer whole =
        ByteBuffer.allocate(PREAMBLE + 16 + meta.size()).order(ByteOrder.LITTLE_ENDIAN);
    whole.position(PREAMBLE);
    whole.put(ascii("DICM")).putShort((short) 2).putShort((short) 0).put(ascii("UL"));
    return whole.putShort((short) 4).putInt(meta.size()).put(meta.toByteArray()).array();
  }

  private static void text(ByteArrayOutputStream out, int element, String vr, String value) {
    byte[] bytes = ascii(value.length() % 2 == 0 ? value : value + (vr.equals("UI") ? "\0" : " "));
    out.writeBytes(
        ByteBuffer.allocate(8)
            .order(ByteOrder.LITTLE_ENDIAN)
            .putShort((short) 2)
            .putShort((short) element)
            .put(ascii(vr))
            .putShort((short) bytes.length)
            .array());
    out.writeBytes(bytes);
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}

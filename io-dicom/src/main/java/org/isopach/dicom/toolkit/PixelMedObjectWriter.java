package org.isopach.dicom.toolkit;

import com.pixelmed.dicom.Attribute;
import com.pixelmed.dicom.AttributeFactory;
import com.pixelmed.dicom.AttributeList;
import com.pixelmed.dicom.AttributeTag;
import com.pixelmed.dicom.DicomException;
import com.pixelmed.dicom.DicomOutputStream;
import com.pixelmed.dicom.OtherByteAttribute;
import com.pixelmed.dicom.TagFromName;
import com.pixelmed.dicom.UnsignedLongAttribute;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.data.Vr;

/**
 * Writes data sets with the PixelMed toolkit, in Explicit VR Little Endian.
 *
 * <p>The bytes depend on the arguments alone. File meta information and group lengths among the
 * given attributes are left out: the file gets its own meta information (DICOM PS3.10, 7.1).
 */
public final class PixelMedObjectWriter implements DicomObjectWriter {
  /** Implementation Class UID of this software: decimal form of a UUID made once for it. */
  public static final String IMPLEMENTATION_CLASS_UID =
      "2.25.258693195177944750204809074586243018470";

  /** Implementation Version Name of this software. */
  public static final String IMPLEMENTATION_VERSION_NAME = "ISOPACH_0_1";

  private static final int BUFFER_BYTES = 1 << 16;
  private static final int SHORT_HEADER_BYTES = 8;
  private static final int LONG_HEADER_BYTES = 12;
  private static final int SOP_CLASS_UID = 0x00080016;
  private static final int SOP_INSTANCE_UID = 0x00080018;
  private static final int BITS_ALLOCATED = 0x00280100;
  private static final int FLOAT_PIXEL_DATA = 0x7FE00008;
  private static final int FLOAT_BITS = 32;
  private static final int PIXEL_DATA = 0x7FE00010;

  @Override
  public void write(Path target, Dataset dataset, byte[] pixelData) throws IOException {
    AttributeList list;
    try {
      list = fileContent(dataset, pixelData);
    } catch (DicomException | NumberFormatException e) {
      throw new IOException("cannot encode " + target + ": " + e.getMessage(), e);
    }
    Path absolute = target.toAbsolutePath();
    Path temporary =
        absolute.resolveSibling("." + absolute.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      writeThrough(temporary, list);
      rename(temporary, absolute);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  private static AttributeList fileContent(Dataset dataset, byte[] pixelData)
      throws DicomException {
    if (dataset.has(PIXEL_DATA) || dataset.has(FLOAT_PIXEL_DATA)) {
      throw new DicomException("pixel data belong in their own argument");
    }
    AttributeList list = AttributeMaker.list(dataset);
    if (pixelData.length > 0) {
      int bits = bitsAllocated(dataset);
      if (bits == FLOAT_BITS) {
        list.put(new RawAttribute(AttributeMaker.tag(FLOAT_PIXEL_DATA), Vr.OF, pixelData));
      } else {
        Vr vr = bits > 8 ? Vr.OW : Vr.OB;
        list.put(new RawAttribute(AttributeMaker.tag(PIXEL_DATA), vr, pixelData));
      }
    }
    putMeta(list, required(dataset, SOP_CLASS_UID), required(dataset, SOP_INSTANCE_UID));
    return list;
  }

  private static int bitsAllocated(Dataset dataset) throws DicomException {
    if (dataset.element(BITS_ALLOCATED).orElse(null) instanceof Element.Numbers bits
        && bits.values().size() == 1) {
      return bits.values().get(0).intValue();
    }
    throw new DicomException("pixel data need Bits Allocated");
  }

  private static String required(Dataset dataset, int tag) throws DicomException {
    return dataset
        .text(tag)
        .orElseThrow(() -> new DicomException(AttributeMaker.name(tag) + " is missing"));
  }

  private static void putMeta(AttributeList list, String sopClass, String sopInstance)
      throws DicomException {
    OtherByteAttribute version = new OtherByteAttribute(TagFromName.FileMetaInformationVersion);
    version.setValues(new byte[] {0, 1});
    AttributeList meta = new AttributeList();
    meta.put(version);
    putText(meta, TagFromName.MediaStorageSOPClassUID, sopClass);
    putText(meta, TagFromName.MediaStorageSOPInstanceUID, sopInstance);
    putText(meta, TagFromName.TransferSyntaxUID, TransferSyntax.EXPLICIT_LITTLE.uid());
    putText(meta, TagFromName.ImplementationClassUID, IMPLEMENTATION_CLASS_UID);
    putText(meta, TagFromName.ImplementationVersionName, IMPLEMENTATION_VERSION_NAME);
    long length = 0;
    for (Attribute attribute : meta.values()) {
      int header = attribute == version ? LONG_HEADER_BYTES : SHORT_HEADER_BYTES;
      length += header + attribute.getPaddedVL();
    }
    UnsignedLongAttribute group =
        new UnsignedLongAttribute(TagFromName.FileMetaInformationGroupLength);
    group.addValue(length);
    meta.put(group);
    list.putAll(meta);
  }

  private static void putText(AttributeList list, AttributeTag tag, String value)
      throws DicomException {
    Attribute attribute = AttributeFactory.newAttribute(tag);
    attribute.addValue(value);
    list.put(attribute);
  }

  private static void writeThrough(Path path, AttributeList list) throws IOException {
    String syntax = TransferSyntax.EXPLICIT_LITTLE.uid();
    try (FileChannel channel =
            FileChannel.open(path, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        DicomOutputStream out =
            new DicomOutputStream(
                new BufferedOutputStream(Channels.newOutputStream(channel), BUFFER_BYTES),
                syntax,
                syntax)) {
      list.write(out, true);
      out.flush();
      channel.force(true);
    } catch (DicomException e) {
      throw new IOException("cannot encode " + path + ": " + e.getMessage(), e);
    }
  }

  private static void rename(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }
  }
}

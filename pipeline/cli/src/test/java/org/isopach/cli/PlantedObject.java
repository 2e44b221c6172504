package org.isopach.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;

/**
 * Writes an object again with invented identifiers wherever one can stand: attributes of every
 * level, private ones, ones of unknown representation, the preamble, file meta information.
 */
final class PlantedObject {
  static final String NAME = "Turnstone^Maribel";
  static final String ID = "TSEU-77-4411903";
  static final List<String> SECRETS =
      List.of(
          "Turnstone",
          "Maribel",
          ID,
          "19480229",
          "ACC-5512-0907",
          "Tern Sound Eye Unit",
          "Phalarope",
          "SK2-88-000417",
          "Harbour Lane 12",
          "+00 5550 178 223",
          "LANE-THREE-ROOM",
          "SANDPIPER-0031-X");

  private static final int PREAMBLE = 128;
  private static final int GROUP_LENGTH_END = 144;
  private static final Set<Integer> MAKERS = Set.of(0x00080070, 0x00081090);

  private PlantedObject() {}

  /** Writes an object and returns the name it was given. */
  static Path write(Path from, Path to) throws Exception {
    ParsedObject object = ParsedObject.of(from, new PixelMedObjectReader());
    byte[] pixels = pixels(object);
    DicomWriters.partTen().write(to, root(level(object.attributes(), 0)), pixels);
    Files.write(to, withMeta(Files.readAllBytes(to)));
    return to;
  }

  static byte[] pixels(ParsedObject object) throws IOException {
    if (object.pixels().isEmpty()) {
      return new byte[0];
    }
    PixelLocation where = object.pixels().get();
    return object.source().read(where.offset(), (int) where.length());
  }

  /** Returns a data set with plants in it and in all items below. */
  private static Dataset level(Dataset data, int depth) {
    Dataset.Builder out = data.toBuilder();
    for (Element element : data.elements()) {
      if (element instanceof Element.Sequence sequence) {
        List<Dataset> items = new ArrayList<>();
        sequence.items().forEach(item -> items.add(level(item, depth + 1)));
        out.items(sequence.tag(), items);
      } else if (MAKERS.contains(element.tag())) {
        out.text(element.tag(), element.vr(), "Skerry, set up for Maribel");
      }
    }
    return out.text(0x00090010, Vr.LO, "TERN PRIVATE")
        .text(0x00091001, Vr.LO, "private of " + NAME)
        .bytes(0x00091002, Vr.UN, ("of " + ID).getBytes(StandardCharsets.UTF_16LE))
        .items(0x00091003, Dataset.builder().text(0x00104000, Vr.LT, "for Turnstone").build())
        .bytes(0x00104000, Vr.UN, ("note on " + NAME).getBytes(StandardCharsets.US_ASCII))
        .text(0x00081080, Vr.LO, "seen by Dr Phalarope, Harbour Lane 12, level " + depth)
        .text(0x00081048, Vr.PN, "Phalarope^Jo")
        .text(0x00080201, Vr.SH, "Maribel")
        .text(0x00180022, Vr.CS, "MARIBEL", "X_TURNSTONE")
        .text(0x00181060, Vr.DS, "Phalarope, Jo")
        .build();
  }

  private static Dataset root(Dataset data) {
    Dataset request =
        Dataset.builder()
            .text(0x00080050, Vr.SH, "ACC-5512-0907")
            .text(0x00401001, Vr.SH, "ACC-5512-0907")
            .text(0x00321060, Vr.LO, "macula of Maribel")
            .build();
    return data.toBuilder()
        .text(0x00100010, Vr.PN, NAME)
        .text(0x00100020, Vr.LO, ID)
        .text(0x00100030, Vr.DA, "19480229")
        .text(0x00101001, Vr.PN, "Maribel^Turnstone")
        .text(0x00101040, Vr.LO, "Harbour Lane 12")
        .text(0x00102154, Vr.SH, "+00 5550 178 223")
        .items(0x00101002, Dataset.builder().text(0x00100020, Vr.LO, ID).build())
        .text(0x00080050, Vr.SH, "ACC-5512-0907")
        .text(0x00080080, Vr.LO, "Tern Sound Eye Unit")
        .text(0x00080081, Vr.ST, "Harbour Lane 12")
        .text(0x00080090, Vr.PN, "Phalarope^Jo")
        .text(0x00081010, Vr.SH, "LANE-THREE-ROOM")
        .text(0x00081030, Vr.LO, "study of Turnstone")
        .text(0x00081050, Vr.PN, "Phalarope^Jo")
        .text(0x00081060, Vr.PN, "Phalarope^Jo")
        .text(0x00081070, Vr.PN, "Phalarope^Jo")
        .text(0x00120040, Vr.LO, "SANDPIPER-0031-X")
        .text(0x00181000, Vr.LO, "SK2-88-000417")
        .items(0x00400275, request)
        .build();
  }

  /** Puts text into the preamble and adds Source AE Title and Private Information (PS3.10, 7.1). */
  private static byte[] withMeta(byte[] file) {
    byte[] text = ("scan of " + NAME + " " + ID).getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(text, 0, file, 0, Math.min(text.length, PREAMBLE));
    ByteArrayOutputStream more = new ByteArrayOutputStream();
    attribute(more, 0x0016, "AE", "TURNSTONE ");
    attribute(more, 0x0100, "UI", "2.25.4411903");
    attribute(more, 0x0102, "OB", NAME + " ");
    ByteBuffer ints = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    int length = ints.getInt(GROUP_LENGTH_END - 4);
    ints.putInt(GROUP_LENGTH_END - 4, length + more.size());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(file, 0, GROUP_LENGTH_END + length);
    out.writeBytes(more.toByteArray());
    out.write(file, GROUP_LENGTH_END + length, file.length - GROUP_LENGTH_END - length);
    return out.toByteArray();
  }

  private static void attribute(ByteArrayOutputStream out, int element, String vr, String text) {
    byte[] value = text.getBytes(StandardCharsets.US_ASCII);
    ByteBuffer head = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN);
    head.putShort((short) 2).putShort((short) element);
    head.put(vr.getBytes(StandardCharsets.US_ASCII));
    if (vr.equals("OB")) {
      head.putShort((short) 0).putInt(value.length + (value.length & 1));
    } else {
      head.putShort((short) (value.length + (value.length & 1)));
    }
    out.write(head.array(), 0, head.position());
    out.writeBytes(value);
    if (value.length % 2 == 1) {
      out.write(0);
    }
  }
}

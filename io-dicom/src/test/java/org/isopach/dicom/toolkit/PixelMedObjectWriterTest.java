package org.isopach.dicom.toolkit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Values are read back by dcmdump of the DCMTK toolkit, which shares no code with ours. */
class PixelMedObjectWriterTest {
  private static final byte[] NONE = {};

  @TempDir Path folder;

  private static Dataset.Builder base() {
    return Dataset.builder()
        .text(0x00080005, Vr.CS, "ISO_IR 192")
        .text(0x00080016, Vr.UI, "1.2.840.10008.5.1.4.1.1.7")
        .text(0x00080018, Vr.UI, "2.25.1234567");
  }

  private String dump(Dataset dataset, byte[] pixels) throws Exception {
    Path file = folder.resolve("object.dcm");
    DicomWriters.partTen().write(file, dataset, pixels);
    Process process;
    try {
      process = new ProcessBuilder("dcmdump", "+L", "-Un", file.toString()).start();
    } catch (IOException e) {
      assumeTrue(false, "dcmdump is not installed");
      throw e;
    }
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    String errors = new String(process.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), errors);
    assertEquals("", errors);
    return text;
  }

  private static void assertLine(String dump, String start) {
    assertTrue(
        dump.lines().anyMatch(l -> l.strip().startsWith(start)), start + "\nnot in\n" + dump);
  }

  @Test
  void textAndNumbersComeBackAsGiven() throws Exception {
    String dump =
        dump(
            base()
                .text(0x00100010, Vr.PN, "Möwe^Ansgar")
                .text(0x00100020, Vr.LO, "TS-0001")
                .text(0x00181050, Vr.DS, "1.2500", "-3e-5")
                .text(0x00280009, Vr.AT, "00181063")
                .text(0x00080050, Vr.SH)
                .numbers(0x00280010, Vr.US, 65535)
                .numbers(0x00189219, Vr.SS, -32768)
                .numbers(0x00409225, Vr.FD, 0.1, Double.NaN)
                .numbers(0x00221513, Vr.FL, 0.1, 2)
                .numbers(0x00089007, Vr.UL, 4294967295.0)
                .numbers(0x00186020, Vr.SL, -2147483648.0)
                .build(),
            NONE);
    assertLine(dump, "(0010,0010) PN [Möwe^Ansgar]");
    assertLine(dump, "(0010,0020) LO [TS-0001]                                #   8, 1");
    assertLine(dump, "(0018,1050) DS [1.2500\\-3e-5]");
    assertLine(dump, "(0028,0009) AT (0018,1063)");
    assertLine(dump, "(0008,0050) SH (no value available)");
    assertLine(dump, "(0028,0010) US 65535");
    assertLine(dump, "(0018,9219) SS -32768");
    assertLine(dump, "(0040,9225) FD 0.1\\nan");
    assertLine(dump, "(0022,1513) FL 0.100000001\\2");
    assertLine(dump, "(0008,9007) UL 4294967295");
    assertLine(dump, "(0018,6020) SL -2147483648");
  }

  @Test
  void metaInformationNamesThisSoftware() throws Exception {
    String dump = dump(base().build(), NONE);
    assertLine(dump, "(0002,0001) OB 00\\01");
    assertLine(dump, "(0002,0003) UI [2.25.1234567]");
    assertLine(dump, "(0002,0010) UI [1.2.840.10008.1.2.1]");
    assertLine(dump, "(0002,0012) UI [" + PixelMedObjectWriter.IMPLEMENTATION_CLASS_UID + "]");
    assertLine(dump, "(0002,0013) SH [ISOPACH_0_1]");
  }

  @Test
  void sequencesNestAndEmptyOnesStay() throws Exception {
    Dataset inner = Dataset.builder().text(0x00080100, Vr.SH, "T-1").build();
    Dataset outer =
        Dataset.builder().items(0x00082218, inner).text(0x00080104, Vr.LO, "Auge ä").build();
    String dump = dump(base().items(0x00082112, outer, outer).items(0x00081140).build(), NONE);
    assertEquals(2, dump.lines().filter(l -> l.contains("(0008,0100) SH [T-1]")).count());
    assertEquals(2, dump.lines().filter(l -> l.contains("(0008,0104) LO [Auge ä]")).count());
    assertLine(dump, "(0008,1140) SQ (Sequence with undefined length #=0)");
  }

  @Test
  void bytesAndPixelsAreWrittenByBitsAllocated() throws Exception {
    String eight =
        dump(
            base()
                .numbers(0x00280100, Vr.US, 8)
                .bytes(0x00281201, Vr.OW, new byte[] {1, 2, 3, 4})
                .bytes(0x00091001, Vr.UN, new byte[] {7, 8, 9})
                .build(),
            new byte[] {1, 2, 3});
    assertLine(eight, "(0028,1201) OW 0201\\0403");
    assertLine(eight, "(0009,1001) UN 07\\08\\09\\00");
    assertLine(eight, "(7fe0,0010) OB 01\\02\\03\\00");
    String sixteen = dump(base().numbers(0x00280100, Vr.US, 16).build(), new byte[] {1, 2, 3, 4});
    assertLine(sixteen, "(7fe0,0010) OW 0201\\0403");
  }

  @Test
  void replacesTheTargetAndLeavesNothingElse() throws Exception {
    Path file = folder.resolve("object.dcm");
    Files.writeString(file, "older");
    DicomWriters.partTen().write(file, base().build(), NONE);
    byte[] first = Files.readAllBytes(file);
    DicomWriters.partTen().write(file, base().build(), NONE);
    assertArrayEquals(first, Files.readAllBytes(file));
    try (Stream<Path> files = Files.list(folder)) {
      assertEquals(List.of(file), files.toList());
    }
  }

  @Test
  void refusesWhatItCannotWriteAndKeepsTheOldFile() throws Exception {
    Path file = folder.resolve("object.dcm");
    Files.writeString(file, "older");
    Dataset noSuchCharacter =
        base().text(0x00080005, Vr.CS).text(0x00100010, Vr.PN, "Möwe").build();
    Dataset noClass = base().remove(0x00080016).build();
    Dataset tooLarge = base().numbers(0x00280010, Vr.US, 65536).build();
    Dataset pixels = base().bytes(0x7FE00010, Vr.OW, new byte[2]).build();
    for (Dataset bad : List.of(noSuchCharacter, noClass, tooLarge, pixels)) {
      IOException refused =
          assertThrows(IOException.class, () -> DicomWriters.partTen().write(file, bad, NONE));
      assertFalse(refused.getMessage().isBlank());
    }
    assertThrows(
        IOException.class, () -> DicomWriters.partTen().write(file, base().build(), new byte[2]));
    assertEquals("older", Files.readString(file));
  }
}

package org.isopach.dicom.toolkit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.ParsedObject;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Names as the standard encodes them. */
class CharacterSetTest {
  @TempDir Path folder;

  /** The examples of PS3.5, annexes H.3, I.2, J.1 and J.2; bytes from memory. */
  @ParameterizedTest
  @CsvSource({
    "'\\ISO 2022 IR 87', Yamada^Tarou=山田^太郎=やまだ^たろう, 59616D6164615E5461726F753D1B24423B334544"
        + "1B28425E1B244242404F3A1B28423D1B24422464245E24401B28425E1B2442243F246D24261B2842",
    "'ISO 2022 IR 13\\ISO 2022 IR 87', ﾔﾏﾀﾞ^ﾀﾛｳ=山田^太郎=やまだ^たろう, D4CFC0DE5EC0DBB33D1B24423B334544"
        + "1B284A5E1B244242404F3A1B284A3D1B24422464245E24401B284A5E1B2442243F246D24261B284A",
    "'\\ISO 2022 IR 149', Hong^Gildong=洪^吉洞=홍^길동, 486F6E675E47696C646F6E673D1B242943FBF35E"
        + "1B242943D1CED4D73D1B242943C8AB5E1B242943B1E6B5BF",
    "'ISO_IR 192', Wang^XiaoDong=王^小東, 57616E675E5869616F446F6E673DE78E8B5EE5B08FE69DB1",
    "'GB18030', Wang^XiaoDong=王^小东, 57616E675E5869616F446F6E673DCDF55ED0A1B6AB"
  })
  void examplesOfTheStandard(String terms, String name, String bytes) throws Exception {
    assertEquals(Optional.of(name), read(terms, HexFormat.of().parseHex(bytes)));
  }

  /** Each set of PS3.3, table C.12-2, against the Java platform's own table of it. */
  @ParameterizedTest
  @CsvSource({
    "ISO_IR 100, ISO-8859-1, Möwe^Zoë",
    "ISO_IR 101, ISO-8859-2, Rybitwa^Świt",
    "ISO_IR 109, ISO-8859-3, Ċirlewwa^Ħal",
    "ISO_IR 110, ISO-8859-4, Tiir^Õie",
    "ISO_IR 144, ISO-8859-5, Крачка^Нева",
    "ISO_IR 127, ISO-8859-6, خرشنة^بحر",
    "ISO_IR 126, ISO-8859-7, Γλαρόνι^Νερό",
    "ISO_IR 138, ISO-8859-8, שחפית^ים",
    "ISO_IR 148, ISO-8859-9, Sumru^Işık",
    "ISO_IR 13, JIS_X0201, ｱｼﾞｻｼ^ｳﾐ",
    "ISO_IR 166, TIS-620, นกนางนวล^ทะเล",
    "GBK, GBK, 燕鸥^海",
  })
  void setsOfOneAndTwoBytes(String term, String charset, String name) throws Exception {
    assertEquals(Optional.of(name), read(term, name.getBytes(Charset.forName(charset))));
  }

  /** The example of PS3.5, annex K.2 (from memory), which the toolkit loses. */
  @Test
  void aNameTheToolkitLosesIsToldAndDcmtkRewritesIt() throws Exception {
    byte[] name =
        HexFormat.of().parseHex("5A68616E675E5869616F446F6E673D1B242941D5C55E1B242941D0A1B6AB");
    Path file = Files.write(folder.resolve("name"), encoded("\\ISO 2022 IR 58", name));
    ObjectDefect defect =
        assertThrows(ObjectDefect.class, () -> ParsedObject.of(file, new PixelMedObjectReader()));
    assertEquals(FindingKind.MALFORMED_ATTRIBUTE, defect.kind());
    assertTrue(defect.getMessage().contains("(0010,0010)"), defect.getMessage());

    Path rewritten = folder.resolve("rewritten");
    ToolRun.of("dcmconv", "+U8", "-F", file.toString(), rewritten.toString());
    Dataset read = ParsedObject.of(rewritten, new PixelMedObjectReader()).attributes();
    assertEquals(Optional.of("Zhang^XiaoDong=张^小东"), read.text(Tags.PATIENT_NAME));
  }

  private static Optional<String> read(String terms, byte[] name) throws ObjectDefect {
    return new PixelMedObjectReader()
        .parse(encoded(terms, name), TransferSyntax.EXPLICIT_LITTLE)
        .text(Tags.PATIENT_NAME);
  }

  private static byte[] encoded(String terms, byte[] name) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    element(out, 0x0008, 0x0005, "CS", terms.getBytes(StandardCharsets.US_ASCII));
    element(out, 0x0010, 0x0010, "PN", name);
    return out.toByteArray();
  }

  private static void element(
      ByteArrayOutputStream out, int group, int number, String vr, byte[] value) {
    int length = value.length + value.length % 2;
    for (int part : new int[] {group, number}) {
      out.write(part & 0xff);
      out.write(part >> 8);
    }
    out.writeBytes(vr.getBytes(StandardCharsets.US_ASCII));
    out.write(length & 0xff);
    out.write(length >> 8);
    out.writeBytes(value);
    if (length > value.length) {
      out.write(' ');
    }
  }
}

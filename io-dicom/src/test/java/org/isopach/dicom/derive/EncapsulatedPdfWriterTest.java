package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.isopach.dicom.check.CheckReport;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EncapsulatedPdfWriterTest {
  private static final DerivedProvenance MADE = new DerivedProvenance("0.1.0", "grid ETDRS");
  private static final byte[] PDF = "%PDF-1.4 nothing".getBytes(StandardCharsets.US_ASCII);

  @TempDir Path folder;

  private DerivedWriteResult write(byte[] pdf, DerivedProvenance made, Path file) throws Exception {
    return new EncapsulatedPdfWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(pdf, "Retinal thickness, right eye", true, SampleMap.scan(true), made, file);
  }

  private Path written(byte[] pdf) throws Exception {
    Path file = folder.resolve("report.dcm");
    assertInstanceOf(DerivedWriteResult.Written.class, write(pdf, MADE, file));
    return file;
  }

  @Test
  void ourCheckerAndTheValidatorAcceptIt() throws Exception {
    Path file = written(PDF);
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    String output = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(EncapsulatedPdfWriter.SOP_CLASS_UID, output));
    assertTrue(output.startsWith("EncapsulatedPDF"), output);
  }

  /**
   * Concept Name is of type 2: without a macular grid in the document there is no title to code.
   */
  @Test
  void aDocumentWithoutAMacularGridHasNoCodedTitle() throws Exception {
    Path file = folder.resolve("other.dcm");
    new EncapsulatedPdfWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(PDF, "Retinal thickness, right eye", false, SampleMap.scan(true), MADE, file);
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    String output = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(EncapsulatedPdfWriter.SOP_CLASS_UID, output));
    String named = ToolRun.of("dcmdump", "+P", "0008,0104", file.toString()).output();
    assertFalse(named.contains("Macular Grid"), named);
    String titled = ToolRun.of("dcmdump", "+P", "0008,0104", written(PDF).toString()).output();
    assertTrue(titled.contains("Macular Grid"), titled);
  }

  /** Our reader leaves values above 1 MiB out; the checker says so, and finds nothing absent. */
  @Test
  void aLargeDocumentIsNotTakenForAMissingOne() throws Exception {
    Path file = written(Arrays.copyOf(PDF, (1 << 20) + 2));
    CheckReport report = FileChecker.standard().check(file);
    assertEquals(List.of(), report.violations());
    assertTrue(
        report.unchecked().stream().anyMatch(one -> one.path().equals("(0042,0011)")),
        report.toString());
  }

  /** DCMTK takes the document out again; an odd length is padded, and the length told. */
  @Test
  void dcmtkTakesOutTheDocument() throws Exception {
    byte[] odd = "%PDF-1.4 nothing!".getBytes(StandardCharsets.US_ASCII);
    Path taken = folder.resolve("taken.pdf");
    ToolRun run = ToolRun.of("dcm2pdf", written(odd).toString(), taken.toString());
    assertEquals(0, run.exit(), run.output());
    assertArrayEquals(odd, Files.readAllBytes(taken));
  }

  @Test
  void theSameInputGivesTheSameBytesAndAnotherParameterAnotherUid() throws Exception {
    Path again = folder.resolve("again.dcm");
    Path first = written(PDF);
    String uid = uid(write(PDF, MADE, again));
    assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(again));
    assertNotEquals(uid, uid(write(PDF, new DerivedProvenance("0.1.0", "grid other"), again)));
    byte[] other = "%PDF-1.4 nothinG".getBytes(StandardCharsets.US_ASCII);
    assertNotEquals(uid, uid(write(other, MADE, again)));
  }

  private static String uid(DerivedWriteResult result) {
    return assertInstanceOf(DerivedWriteResult.Written.class, result).sopInstanceUid();
  }

  @Test
  void whatIsNoPdfIsRefused() throws Exception {
    assertInstanceOf(
        DerivedWriteResult.Refused.class,
        write(new byte[] {1, 2}, MADE, folder.resolve("none.dcm")));
  }
}

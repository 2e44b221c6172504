package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.file.FileDigest;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Folders with anything in them: every file is accounted for, in one order, and left alone. */
class FolderReadingTest {
  @TempDir Path folder;

  @Test
  void filesThatAreNotDicom() throws IOException {
    Files.createFile(folder.resolve("a-empty"));
    Files.writeString(folder.resolve("b-text.dcm"), "Notes of the SANDPIPER visit.\n".repeat(20));
    Files.write(folder.resolve("c-zeros"), new byte[4096]);
    Files.write(folder.resolve("d-short"), new byte[] {8, 0, 5});
    byte[] noise = new byte[5000];
    new Random(1).nextBytes(noise);
    Files.write(folder.resolve("e-noise"), noise);
    FolderContents contents = read(folder);
    assertEquals(Collections.nCopies(5, FindingKind.NOT_DICOM), kinds(contents));
    assertEquals("the file is empty", contents.findings().get(0).detail());
    assertEquals(5, contents.filesSeen());
  }

  @Test
  void objectsOfOtherKindsAreNamed() {
    new TomographyBuilder()
        .with(b -> b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.2"))
        .write(folder.resolve("ct"));
    new TomographyBuilder()
        .with(b -> b.text(Tags.SOP_CLASS_UID, Vr.UI, "2.25.999"))
        .write(folder.resolve("unknown"));
    FolderContents contents = read(folder);
    assertEquals(List.of(FindingKind.NOT_OPHTHALMIC, FindingKind.NOT_OPHTHALMIC), kinds(contents));
    assertTrue(contents.findings().get(0).detail().contains("CT Image Storage"));
    assertTrue(contents.findings().get(0).detail().contains("1.2.840.10008.5.1.4.1.1.2"));
    assertEquals("the object is 2.25.999", contents.findings().get(1).detail());
  }

  @Test
  void whatIsNotThereOrLeadsNowhere() throws IOException {
    Path gone = folder.resolve("gone");
    Files.createSymbolicLink(folder.resolve("link"), gone);
    assertEquals(
        List.of(FindingKind.UNREADABLE_FILE, FindingKind.UNREADABLE_FILE),
        kinds(read(folder, gone)));
  }

  @Test
  void fileThatMayNotBeRead() throws IOException {
    Path scan = new TomographyBuilder().write(folder.resolve("scan"));
    Files.setPosixFilePermissions(scan, Set.of());
    assumeFalse(Files.isReadable(scan), "the superuser may read everything");
    FolderContents contents = read(folder);
    assertEquals(List.of(FindingKind.UNREADABLE_FILE), kinds(contents));
    assertEquals("cannot be read: permission denied", contents.findings().get(0).detail());
  }

  @Test
  void directoryFileIsNamedByItsMetaInformation() throws IOException {
    Path scan =
        new TomographyBuilder()
            .with(b -> b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.1.3.10"))
            .write(folder.resolve("DICOMDIR"));
    byte[] whole = Files.readAllBytes(scan);
    for (int i = 140; i < whole.length - 3; i++) {
      if (whole[i] == 8 && whole[i + 1] == 0 && whole[i + 2] == 0x16 && whole[i + 3] == 0) {
        whole[i + 2] = 0x05; // the data set of a directory has no SOP Class UID
        break;
      }
    }
    Files.write(scan, whole);
    FolderContents contents = read(folder);
    assertEquals(List.of(FindingKind.NOT_OPHTHALMIC), kinds(contents));
    assertTrue(
        contents.findings().get(0).detail().contains("1.2.840.10008.1.3.10"),
        contents.findings().get(0).detail());
  }

  @Test
  void linksAreFollowedAndLoopsReported() throws IOException {
    Path outside = Files.createDirectory(folder.resolve("outside"));
    new TomographyBuilder().write(outside.resolve("scan"));
    new LocalizerBuilder().write(outside.resolve("fundus"));
    Path inside = Files.createDirectories(folder.resolve("in/deeper"));
    Files.createSymbolicLink(inside.resolve("there"), outside);
    Files.createSymbolicLink(inside.resolve("up"), folder.resolve("in"));
    Files.createSymbolicLink(outside.resolve("self"), outside);
    FolderContents contents = read(folder.resolve("in"));
    assertEquals(List.of(FindingKind.LINK_LOOP, FindingKind.LINK_LOOP), kinds(contents));
    assertEquals(1, contents.scans().size());
    assertEquals(2, contents.filesSeen());
  }

  @Test
  void whatAListenerIsStillReceivingIsPassedOver() throws IOException {
    new TomographyBuilder().write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    Path incoming = Files.createDirectory(folder.resolve(".incoming"));
    Files.createFile(incoming.resolve("lock"));
    byte[] whole = Files.readAllBytes(folder.resolve("scan"));
    Files.write(incoming.resolve("1.part"), Arrays.copyOf(whole, 400));
    Path file = Files.createDirectory(folder.resolve("deeper")).resolve(".incoming");
    Files.writeString(file, "a file, not a listener's folder");

    FolderContents contents = read(folder);

    assertEquals(List.of(FindingKind.NOT_DICOM), kinds(contents));
    assertEquals(file.toString(), contents.findings().get(0).subject());
    assertEquals(3, contents.filesSeen());
    assertEquals(2, read(incoming).filesSeen(), "who names the folder itself means it");
  }

  @Test
  void theSameFileByTwoWaysCountsOnce() {
    Path scan = new TomographyBuilder().write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = read(scan, folder, folder);
    assertEquals(List.of(), kinds(contents));
    assertEquals(1, contents.scans().size());
  }

  @Test
  void copiesWithTheSameContentCountOnce() throws IOException {
    Path scan = new TomographyBuilder().write(folder.resolve("a"));
    Files.copy(scan, folder.resolve("b"));
    byte[] otherPreamble = Files.readAllBytes(scan);
    otherPreamble[5] = 77;
    Files.write(folder.resolve("c"), otherPreamble);
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = read(folder);
    assertEquals(List.of(FindingKind.DUPLICATE_SAME, FindingKind.DUPLICATE_SAME), kinds(contents));
    assertEquals(folder.resolve("b").toString(), contents.findings().get(0).subject());
    assertEquals(scan.toString(), contents.scans().get(0).document().location());
  }

  @Test
  void differentContentUnderOneUidIsNotMeasured() throws IOException {
    Path scan = new TomographyBuilder().write(folder.resolve("a"));
    byte[] otherPixel = Files.readAllBytes(scan);
    otherPixel[otherPixel.length - 3] ^= 1;
    Files.write(folder.resolve("b"), otherPixel);
    new TomographyBuilder()
        .with(b -> b.text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25.5"))
        .write(folder.resolve("other"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = read(folder);
    assertEquals(
        List.of(FindingKind.DUPLICATE_DIFFERENT, FindingKind.DUPLICATE_DIFFERENT), kinds(contents));
    assertEquals(1, contents.scans().size());
    assertEquals("2.25.5", contents.scans().get(0).identity().sopUid());
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 40, 300})
  void aCutCopyDoesNotCostTheGoodOne(int missing) throws IOException {
    Path good = new TomographyBuilder().size(3, 37, 21).write(folder.resolve("b"));
    byte[] bytes = Files.readAllBytes(good);
    Files.write(folder.resolve("a"), Arrays.copyOf(bytes, bytes.length - missing));
    Files.write(folder.resolve("c"), Arrays.copyOf(bytes, bytes.length / 2));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = read(folder);
    assertEquals(List.of(FindingKind.TRUNCATED, FindingKind.TRUNCATED), kinds(contents));
    assertEquals(1, contents.scans().size());
    assertEquals(good.toString(), contents.scans().get(0).document().location());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "dcmconv +ti",
        "dcmconv +tb",
        "dcmconv +td",
        "dcmcrle",
        "dcmcjpeg +e1",
        "gdcmconv --j2k"
      })
  void aCopyRecodedWithoutLossCountsOnce(String command) throws IOException {
    Path scan = new TomographyBuilder().size(3, 37, 21).write(folder.resolve("a"));
    recode(command, scan, folder.resolve("b"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = read(folder);
    assertEquals(List.of(FindingKind.DUPLICATE_SAME), kinds(contents), contents.toString());
    assertEquals(scan.toString(), contents.scans().get(0).document().location());
  }

  private static void recode(String command, Path from, Path to) {
    List<String> line = new ArrayList<>(List.of(command.split(" ")));
    line.add(from.toString());
    line.add(to.toString());
    OutsideTool.run(line);
  }

  @Test
  void orderDoesNotDependOnNames() {
    List<String> expected = List.of("2.25.1", "2.25.2", "2.25.3", "2.25.4", "2.25.5", "2.25.6");
    List<TomographyBuilder> builders = new ArrayList<>();
    builders.add(scan("2.25.1", "A", "R", "20250101"));
    builders.add(scan("2.25.2", "A", "R", "20250102"));
    builders.add(scan("2.25.3", "A", "R", "20250102"));
    builders.add(scan("2.25.4", "A", "L", "20240101"));
    builders.add(scan("2.25.5", "A", "", "20230101"));
    builders.add(scan("2.25.6", "B", "R", "20200101"));
    Collections.shuffle(builders, new Random(3));
    for (int i = 0; i < builders.size(); i++) {
      builders.get(i).write(folder.resolve("f" + i));
    }
    new LocalizerBuilder().write(folder.resolve("fundus"));
    assertEquals(expected, read(folder).scans().stream().map(s -> s.identity().sopUid()).toList());
  }

  @Test
  void nothingIsChanged() throws IOException {
    new TomographyBuilder().write(folder.resolve("scan"));
    Files.writeString(folder.resolve("notes"), "x");
    Map<String, String> before = digests();
    read(folder);
    assertEquals(before, digests());
  }

  @Test
  void unsupportedTransferSyntax() throws Exception {
    Path original = new TomographyBuilder().size(3, 37, 21).write(folder.resolve("original"));
    Path file = folder.resolve("ls");
    OutsideTool.run(List.of("gdcmconv", "--jpegls", original.toString(), file.toString()));
    String bytes = Files.readString(file, StandardCharsets.ISO_8859_1);
    String extended = "1.2.840.10008.1.2.4.51";
    Files.writeString(
        file, bytes.replace("1.2.840.10008.1.2.4.80", extended), StandardCharsets.ISO_8859_1);
    FolderContents contents = read(file);
    assertEquals(List.of(FindingKind.UNSUPPORTED_ENCODING), kinds(contents));
    assertTrue(contents.findings().get(0).detail().contains(extended));
  }

  @Test
  void manyOtherFilesAreQuick() throws IOException {
    byte[] text = "no image here\n".repeat(15).getBytes(StandardCharsets.US_ASCII);
    for (int d = 0; d < 5; d++) {
      Path sub = Files.createDirectory(folder.resolve("d" + d));
      for (int i = 0; i < 1000; i++) {
        Files.write(sub.resolve("f" + i), text);
      }
    }
    long start = System.nanoTime();
    FolderContents contents = read(folder);
    double seconds = (System.nanoTime() - start) / 1e9;
    assertEquals(5_000, contents.filesSeen());
    assertTrue(seconds < 30, "5 000 files took " + seconds + " s");
  }

  private static TomographyBuilder scan(String uid, String patient, String eye, String date) {
    return new TomographyBuilder()
        .with(
            b -> {
              b.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid)
                  .text(Tags.PATIENT_ID, Vr.LO, patient)
                  .text(Tags.ACQUISITION_DATETIME, Vr.DT, date);
              if (eye.isEmpty()) {
                b.remove(Tags.IMAGE_LATERALITY);
              } else {
                b.text(Tags.IMAGE_LATERALITY, Vr.CS, eye);
              }
            })
        .withFrames((f, groups) -> groups.items(Tags.FRAME_ANATOMY_SEQUENCE));
  }

  private Map<String, String> digests() throws IOException {
    Map<String, String> all = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.toList()) {
        all.put(
            file.toString(),
            FileDigest.sha256(file) + Files.getLastModifiedTime(file) + Files.size(file));
      }
    }
    return all;
  }

  private static FolderContents read(Path... inputs) {
    return DicomFolder.reader().read(List.of(inputs));
  }

  private static List<FindingKind> kinds(FolderContents contents) {
    return contents.findings().stream().map(f -> f.kind()).toList();
  }
}

package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.fixture.ToolRun;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What reading leaves out is counted as removed too. */
class LeftOutCountTest {
  private static final int ICON = 0x00880200;
  private static final int COMMENTS = 0x00204000;
  private static final int LARGE = (1 << 20) + 2;
  private static final int PADDING = 0xFFFCFFFC;

  @TempDir Path folder;

  private Map<Integer, Map<Action, Integer>> counts(Path in) throws Exception {
    Path out = folder.resolve("out");
    Pseudonyms names =
        new Pseudonyms("a key of the SANDPIPER trial".getBytes(StandardCharsets.UTF_8));
    FolderDeidentifier work = Deidentifiers.of(names);
    List<Outcome> outcomes =
        work.run(List.of(in), OutFolder.open(out, new Options(true, false, false), names));
    assertTrue(outcomes.get(0).written().isPresent(), outcomes.toString());
    return work.tally().counts();
  }

  private Path scan() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in")).resolve("scan");
    new TomographyBuilder()
        .with(
            b ->
                b.text(0x00090010, Vr.LO, "TERN PRIVATE")
                    .text(0x00091001, Vr.LO, "one")
                    .text(COMMENTS, Vr.LT, "x".repeat(LARGE))
                    .items(ICON, Dataset.builder().numbers(Tags.ROWS, Vr.US, 1).build()))
        .write(in);
    return in;
  }

  /** An attribute behind Pixel Data, in explicit little endian. */
  private static void append(Path file, int tag, String vr, byte[] value) throws Exception {
    ByteBuffer head = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN);
    head.putShort((short) (tag >>> 16)).putShort((short) tag);
    head.put(vr.getBytes(StandardCharsets.US_ASCII)).putShort((short) 0).putInt(value.length);
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.writeBytes(Files.readAllBytes(file));
    all.writeBytes(head.array());
    all.writeBytes(value);
    Files.write(file, all.toByteArray());
  }

  @Test
  void privateGroupsIconsLargeValuesAndWhatFollowsPixelsAreCounted() throws Exception {
    Path file = scan();
    append(file, PADDING, "OB", new byte[6]);
    Map<Integer, Map<Action, Integer>> counts = counts(file.getParent());
    assertEquals(2, counts.get(Tally.PRIVATE).get(Action.REMOVED));
    assertEquals(1, counts.get(ICON).get(Action.REMOVED));
    assertEquals(1, counts.get(COMMENTS).get(Action.REMOVED));
    assertEquals(1, counts.get(PADDING).get(Action.REMOVED));
  }

  /** Fragments as DCMTK writes them. */
  @Test
  void theSameBehindCompressedPixels() throws Exception {
    Path plain = scan();
    Path rle = Files.createDirectories(folder.resolve("rle")).resolve("scan");
    ToolRun.of("dcmcrle", "+un", plain.toString(), rle.toString());
    append(rle, PADDING, "OB", new byte[6]);
    assertEquals(1, counts(rle.getParent()).get(PADDING).get(Action.REMOVED));
  }

  @Test
  void whatMakesNoSenseBehindPixelsIsNotCopiedAndEndsTheCount() throws Exception {
    Path file = scan();
    append(file, PADDING, "OB", new byte[6]);
    Files.write(file, new byte[] {1, 2, 3}, java.nio.file.StandardOpenOption.APPEND);
    assertEquals(1, counts(file.getParent()).get(PADDING).get(Action.REMOVED));
  }
}

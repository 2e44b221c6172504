package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.DerivedProvenance;
import org.isopach.dicom.derive.RegionSegmentationWriter;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Segmentations of fractions and label maps: what their pixels mean, and what is said of unsound
 * ones. Frames of 4 depths and 6 A-scans; segment 1 in two frames of the scan, segment 2 in one.
 */
class SegmentKindsTest {
  private static final int PIXELS = 24;

  @TempDir Path folder;

  private Dataset binary() throws Exception {
    RegionLabels.Builder labels =
        RegionLabels.builder(
            SampleMap.scan(true).size(),
            EnumSet.of(RegionKind.INTRARETINAL_FLUID, RegionKind.SUBRETINAL_FLUID));
    byte[] frame = new byte[PIXELS];
    frame[3] = 1;
    frame[22] = 2;
    labels.set(0, frame);
    byte[] second = new byte[PIXELS];
    second[0] = 1;
    labels.set(1, second);
    Path file = folder.resolve("binary.dcm");
    new RegionSegmentationWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(labels.build(), SampleMap.scan(true), new DerivedProvenance("0.1.0", ""), file);
    return ParsedObject.of(file, new PixelMedObjectReader()).attributes();
  }

  private static Consumer<Dataset.Builder> bytes(int bits) {
    return b ->
        b.numbers(Tags.BITS_ALLOCATED, Vr.US, bits)
            .numbers(Tags.BITS_STORED, Vr.US, bits)
            .numbers(Tags.HIGH_BIT, Vr.US, bits - 1);
  }

  private Dataset fractions() throws Exception {
    Dataset.Builder b =
        binary().toBuilder()
            .text(Tags.SEGMENTATION_TYPE, Vr.CS, "FRACTIONAL")
            .text(Tags.SEGMENTATION_FRACTIONAL_TYPE, Vr.CS, "PROBABILITY")
            .numbers(Tags.MAXIMUM_FRACTIONAL_VALUE, Vr.US, 200);
    bytes(8).accept(b);
    return b.build();
  }

  /** A label map has a frame for each of the scan's, and no Segment Identification. */
  private Dataset labelMap(int bits) throws Exception {
    Dataset object = binary();
    List<Dataset> items = new ArrayList<>();
    List<Dataset> old = object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
    for (Dataset item : old.subList(0, 2)) {
      items.add(item.toBuilder().remove(Tags.SEGMENT_IDENTIFICATION_SEQUENCE).build());
    }
    Dataset background =
        object.items(Tags.SEGMENT_SEQUENCE).get(0).toBuilder()
            .numbers(Tags.SEGMENT_NUMBER, Vr.US, 0)
            .build();
    List<Dataset> segments = new ArrayList<>(List.of(background));
    segments.addAll(object.items(Tags.SEGMENT_SEQUENCE));
    segments.add(
        background.toBuilder()
            .numbers(Tags.SEGMENT_NUMBER, Vr.US, 300)
            .items(
                Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE,
                new org.isopach.dicom.data.Code("F-300", "99GANNET", "Another").toItem())
            .build());
    Dataset.Builder b =
        object.toBuilder()
            .text(Tags.SOP_CLASS_UID, Vr.UI, SopKind.LABEL_MAP.uid())
            .text(Tags.SEGMENTATION_TYPE, Vr.CS, "LABELMAP")
            .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "PALETTE COLOR")
            .text(Tags.NUMBER_OF_FRAMES, Vr.IS, "2")
            .items(Tags.SEGMENT_SEQUENCE, segments)
            .items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, items);
    bytes(bits).accept(b);
    return b.build();
  }

  private Path write(Dataset object, byte[] pixels) throws Exception {
    Path file = folder.resolve("object.dcm");
    DicomWriters.partTen().write(file, object, pixels);
    return file;
  }

  private static List<Integer> inside(SegmentMask mask) {
    List<Integer> found = new ArrayList<>();
    for (int i = 0; i < PIXELS; i++) {
      if (mask.contains(i / 6, i % 6)) {
        found.add(i);
      }
    }
    return found;
  }

  private static byte[] fractionPixels() {
    byte[] pixels = new byte[3 * PIXELS];
    pixels[3] = 99;
    pixels[4] = 100;
    pixels[5] = (byte) 200;
    pixels[PIXELS + 1] = 1;
    pixels[2 * PIXELS + 23] = (byte) 101;
    return pixels;
  }

  @Test
  void fractionsCountFromHalfOfTheirMaximumAndSaySo() throws Exception {
    assertFractions(SegmentationReader.read(write(fractions(), fractionPixels())));
  }

  private static void assertFractions(List<SegmentMask> masks) {
    assertEquals(3, masks.size());
    assertEquals(List.of(4, 5), inside(masks.get(0)));
    assertEquals(List.of(), inside(masks.get(1)));
    assertEquals(List.of(23), inside(masks.get(2)));
    assertEquals(List.of("1", "1", "2"), masks.stream().map(m -> m.type().value()).toList());
    assertEquals(List.of(0, 1, 0), masks.stream().map(SegmentMask::frame).toList());
    for (SegmentMask mask : masks) {
      assertEquals("fraction >= 0.5 (PROBABILITY)", mask.reading());
      assertEquals(SandpiperScan.SOP_UID, mask.sourceUid());
    }
  }

  /** RLE as DCMTK writes it. */
  @Test
  void compressedFractionsAreTheSame() throws Exception {
    Path file = write(fractions(), fractionPixels());
    Path rle = folder.resolve("rle.dcm");
    ToolRun run = ToolRun.of("dcmcrle", file.toString(), rle.toString());
    assertTrue(java.nio.file.Files.exists(rle), run.output());
    assertFractions(SegmentationReader.read(rle));
  }

  @Test
  void anOddMaximumHasNoPixelAtExactlyHalf() throws Exception {
    Dataset odd =
        fractions().toBuilder().numbers(Tags.MAXIMUM_FRACTIONAL_VALUE, Vr.US, 255).build();
    byte[] pixels = new byte[3 * PIXELS];
    pixels[0] = 127;
    pixels[1] = (byte) 128;
    assertEquals(List.of(1), inside(SegmentationReader.read(write(odd, pixels)).get(0)));
  }

  @Test
  void aLabelMapHasSegmentNumbersForPixels() throws Exception {
    byte[] pixels = new byte[2 * PIXELS];
    pixels[3] = 1;
    pixels[7] = 2;
    pixels[PIXELS + 23] = 2;
    List<SegmentMask> masks = SegmentationReader.read(write(labelMap(8), pixels));
    assertEquals(4, masks.size(), "the last segment has no frame, and is there all the same");
    assertEquals(List.of("1", "2", "2", "F-300"), types(masks));
    assertEquals(List.of(3), inside(masks.get(0)));
    assertEquals(List.of(7), inside(masks.get(1)));
    assertEquals(List.of(23), inside(masks.get(2)));
    assertEquals(1, masks.get(2).frame());
    assertEquals(List.of(), inside(masks.get(3)));
    assertEquals(SandpiperScan.SOP_UID, masks.get(3).sourceUid());
    assertEquals(-1, masks.get(3).frame());
    assertEquals("", masks.get(0).reading());
  }

  /** What one scan has tells nothing of another one of the same object. */
  @Test
  void aSegmentOfOneScanIsMissedInTheOther() throws Exception {
    Dataset object = labelMap(8);
    List<Dataset> items = new ArrayList<>(object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE));
    Dataset derivation = items.get(1).items(Tags.DERIVATION_IMAGE_SEQUENCE).get(0);
    Dataset source = derivation.items(Tags.SOURCE_IMAGE_SEQUENCE).get(0);
    Dataset other =
        source.toBuilder().text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, "2.25.99").build();
    items.set(
        1,
        items.get(1).toBuilder()
            .items(
                Tags.DERIVATION_IMAGE_SEQUENCE,
                derivation.toBuilder().items(Tags.SOURCE_IMAGE_SEQUENCE, other).build())
            .build());
    byte[] pixels = new byte[2 * PIXELS];
    pixels[3] = 1;
    pixels[PIXELS + 23] = 2;
    List<SegmentMask> masks =
        SegmentationReader.read(
            write(
                object.toBuilder().items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, items).build(),
                pixels));

    List<String> found =
        masks.stream()
            .map(one -> one.type().value() + " of " + one.sourceUid() + " at " + one.frame())
            .toList();
    String first = SandpiperScan.SOP_UID;
    assertEquals(
        List.of(
            "1 of " + first + " at 0",
            "2 of 2.25.99 at 1",
            "2 of " + first + " at -1",
            "F-300 of " + first + " at -1",
            "1 of 2.25.99 at -1",
            "F-300 of 2.25.99 at -1"),
        found);
  }

  /** Masks are bounded, whatever the pixels are: noise of many segments needs one for each. */
  @Test
  void masksThatNeedTooMuchRoomAreRefused() throws Exception {
    int side = 512;
    int count = 5000;
    Dataset object = labelMap(16);
    Dataset model = object.items(Tags.SEGMENT_SEQUENCE).get(1);
    List<Dataset> segments = new ArrayList<>();
    for (int i = 1; i <= count; i++) {
      segments.add(model.toBuilder().numbers(Tags.SEGMENT_NUMBER, Vr.US, i).build());
    }
    byte[] pixels = new byte[2 * side * side];
    for (int i = 0; i < side * side; i++) {
      int number = 1 + i % count;
      pixels[2 * i] = (byte) number;
      pixels[2 * i + 1] = (byte) (number >> 8);
    }
    Dataset noise =
        object.toBuilder()
            .numbers(Tags.ROWS, Vr.US, side)
            .numbers(Tags.COLUMNS, Vr.US, side)
            .text(Tags.NUMBER_OF_FRAMES, Vr.IS, "1")
            .items(Tags.SEGMENT_SEQUENCE, segments)
            .items(
                Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE,
                object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE).get(0))
            .build();

    ObjectDefect refused =
        assertThrows(ObjectDefect.class, () -> SegmentationReader.read(write(noise, pixels)));

    assertEquals("its segments need more than 128 MiB in memory", refused.detail());
  }

  @Test
  void numbersOfTwoBytesAreReadToo() throws Exception {
    byte[] pixels = new byte[4 * PIXELS];
    pixels[2 * 9] = 300 - 256;
    pixels[2 * 9 + 1] = 1;
    List<SegmentMask> masks = SegmentationReader.read(write(labelMap(16), pixels));
    assertEquals(List.of("F-300", "1", "2"), types(masks));
    assertEquals(List.of(9), inside(masks.get(0)));
  }

  private static List<String> types(List<SegmentMask> masks) {
    return masks.stream().map(mask -> mask.type().value()).toList();
  }

  private record Odd(String what, boolean labels, UnaryOperator<Dataset> change, String said) {
    Arguments arguments() {
      return Arguments.of(what, labels, change, said);
    }
  }

  private static Odd odd(String what, boolean labels, Consumer<Dataset.Builder> to, String said) {
    return new Odd(
        what,
        labels,
        object -> {
          Dataset.Builder b = object.toBuilder();
          to.accept(b);
          return b.build();
        },
        said);
  }

  private static UnaryOperator<Dataset> frames(UnaryOperator<Dataset> change) {
    return object ->
        object.toBuilder()
            .items(
                Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE,
                object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE).stream()
                    .map(change)
                    .toList())
            .build();
  }

  private static Dataset source(Dataset item, String frame) {
    Dataset derivation = item.items(Tags.DERIVATION_IMAGE_SEQUENCE).get(0);
    Dataset source = derivation.items(Tags.SOURCE_IMAGE_SEQUENCE).get(0);
    return item.toBuilder()
        .items(
            Tags.DERIVATION_IMAGE_SEQUENCE,
            derivation.toBuilder()
                .items(
                    Tags.SOURCE_IMAGE_SEQUENCE,
                    source.toBuilder().text(Tags.REFERENCED_FRAME_NUMBER, Vr.IS, frame).build())
                .build())
        .build();
  }

  static Stream<Arguments> oddities() {
    return Stream.of(
            odd(
                "no fractional type",
                false,
                b -> b.remove(Tags.SEGMENTATION_FRACTIONAL_TYPE),
                "what its fractions are is not known"),
            odd(
                "no maximum",
                false,
                b -> b.remove(Tags.MAXIMUM_FRACTIONAL_VALUE),
                "(0062,000E) is missing"),
            odd(
                "a maximum of 0",
                false,
                b -> b.numbers(Tags.MAXIMUM_FRACTIONAL_VALUE, Vr.US, 0),
                "(0062,000E) is [0.0]"),
            odd(
                "a maximum that is no number",
                false,
                b -> b.numbers(Tags.MAXIMUM_FRACTIONAL_VALUE, Vr.FD, Double.NaN),
                "(0062,000E) is [NaN]"),
            odd(
                "pixels above the maximum",
                false,
                b -> b.numbers(Tags.MAXIMUM_FRACTIONAL_VALUE, Vr.US, 100),
                "a pixel is 200, above Maximum Fractional Value, 100"),
            odd(
                "signed fractions",
                false,
                b -> b.numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 1),
                "is signed"),
            odd("more pixels than there are", false, b -> b.numbers(Tags.ROWS, Vr.US, 5), "need"),
            odd(
                "far more pixels than there are",
                false,
                b -> b.numbers(Tags.ROWS, Vr.US, 65535).numbers(Tags.COLUMNS, Vr.US, 65535),
                "too large"),
            odd("no rows", false, b -> b.numbers(Tags.ROWS, Vr.US, 0), "(0028,0010) is [0.0]"),
            odd(
                "no segments",
                false,
                b -> b.items(Tags.SEGMENT_SEQUENCE),
                "(0062,0002) has no segment"),
            odd(
                "a type of its own",
                false,
                b -> b.text(Tags.SEGMENTATION_TYPE, Vr.CS, "X"),
                "\"X\""),
            odd("no type", true, b -> b.remove(Tags.SEGMENTATION_TYPE), "which is not read"),
            odd(
                "fewer items than frames",
                true,
                b -> b.text(Tags.NUMBER_OF_FRAMES, Vr.IS, "3"),
                "3 frames, but 2 items"),
            odd(
                "a background of its own",
                true,
                b -> b.numbers(Tags.PIXEL_PADDING_VALUE, Vr.US, 7),
                "another background than 0"),
            odd(
                "three colours",
                true,
                b -> b.text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "RGB"),
                "not grey"),
            new Odd(
                "a number that no segment has",
                true,
                object ->
                    object.toBuilder()
                        .items(
                            Tags.SEGMENT_SEQUENCE,
                            object.items(Tags.SEGMENT_SEQUENCE).subList(0, 2))
                        .build(),
                "a pixel has the number of a segment that is not there: 2"),
            new Odd(
                "a number that stands twice",
                true,
                object -> {
                  Dataset one = object.items(Tags.SEGMENT_SEQUENCE).get(1);
                  return object.toBuilder().items(Tags.SEGMENT_SEQUENCE, one, one).build();
                },
                "segment number 1 stands twice"),
            new Odd(
                "a segment without type",
                false,
                object ->
                    object.toBuilder()
                        .items(
                            Tags.SEGMENT_SEQUENCE,
                            object.items(Tags.SEGMENT_SEQUENCE).get(0).toBuilder()
                                .items(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE)
                                .build())
                        .build(),
                "segment 1 has no type"),
            new Odd(
                "a frame of no segment",
                false,
                frames(
                    item -> item.toBuilder().items(Tags.SEGMENT_IDENTIFICATION_SEQUENCE).build()),
                "(0062,000A) has 0 items"),
            new Odd(
                "a frame of segment 99",
                false,
                frames(
                    item ->
                        item.toBuilder()
                            .items(
                                Tags.SEGMENT_IDENTIFICATION_SEQUENCE,
                                Dataset.builder()
                                    .numbers(Tags.REFERENCED_SEGMENT_NUMBER, Vr.US, 99)
                                    .build())
                            .build()),
                "a frame names a segment that is not there: 99"),
            new Odd(
                "a source's frame 0", true, frames(i -> source(i, "0")), "(0008,1160) is [0.0]"),
            new Odd("no source's frame", true, frames(i -> source(i, "x")), "(0008,1160) is \"x\""),
            new Odd(
                "an empty derivation",
                true,
                frames(item -> item.toBuilder().items(Tags.DERIVATION_IMAGE_SEQUENCE).build()),
                "(0008,9124) has 0 items"))
        .map(Odd::arguments);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("oddities")
  void unsoundOnesSayWhatIsWrong(
      String what, boolean labels, UnaryOperator<Dataset> change, String said) throws Exception {
    byte[] pixels = fractionPixels();
    if (labels) {
      pixels = new byte[2 * PIXELS];
      Arrays.fill(pixels, 5, 9, (byte) 2);
    }
    Path file = write(change.apply(labels ? labelMap(8) : fractions()), pixels);
    ObjectDefect defect =
        assertThrows(ObjectDefect.class, () -> SegmentationReader.read(file), what);
    assertTrue(defect.detail().contains(said), defect.detail());
  }
}

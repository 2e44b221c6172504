package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.ObjectDefect;

/** Segmentations of an invented other system in which our own regions are stored otherwise. */
final class ForeignSegments {
  static final int MOST = 200;

  private final Path objects;

  ForeignSegments(Path objects) {
    this.objects = objects;
  }

  /** Writes fractions, sure and unsure, a label map, and frames that the scan does not have. */
  void write(Path regions) throws IOException, ObjectDefect {
    fractions(ForeignObject.of(regions, "2.25.1016"), MOST).write(objects.resolve("fractions"));
    fractions(ForeignObject.of(regions, "2.25.1017"), MOST / 2 - 1)
        .write(objects.resolve("unsure-fractions"));
    labels(ForeignObject.of(regions, "2.25.1018")).write(objects.resolve("labels"));
    fractions(ForeignObject.of(regions, "2.25.1019"), MOST)
        .inEvery(
            Tags.SOURCE_IMAGE_SEQUENCE,
            item -> item.toBuilder().text(Tags.REFERENCED_FRAME_NUMBER, Vr.IS, "9999").build())
        .write(objects.resolve("frames-elsewhere"));
  }

  private static ForeignObject fractions(ForeignObject binary, int inside) {
    return binary
        .with(ForeignSegments::bytes)
        .with(
            b ->
                b.text(Tags.SEGMENTATION_TYPE, Vr.CS, "FRACTIONAL")
                    .text(Tags.SEGMENTATION_FRACTIONAL_TYPE, Vr.CS, "PROBABILITY")
                    .numbers(Tags.MAXIMUM_FRACTIONAL_VALUE, Vr.US, MOST))
        .pixels(bits -> unpacked(bits, pixels(binary.attributes()), inside));
  }

  /** One frame for each of the scan's, whatever its segments. */
  private static ForeignObject labels(ForeignObject binary) {
    Dataset object = binary.attributes();
    List<Dataset> items = object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE);
    Map<Integer, List<Integer>> places = new LinkedHashMap<>();
    List<Dataset> frames = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      int frame = frame(items.get(i));
      if (!places.containsKey(frame)) {
        places.put(frame, new ArrayList<>());
        frames.add(items.get(i).toBuilder().remove(Tags.SEGMENT_IDENTIFICATION_SEQUENCE).build());
      }
      places.get(frame).add(i);
    }
    int pixels = pixels(object) / items.size();
    return binary
        .with(ForeignSegments::bytes)
        .with(
            b ->
                b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.66.7")
                    .text(Tags.SEGMENTATION_TYPE, Vr.CS, "LABELMAP")
                    .text(Tags.NUMBER_OF_FRAMES, Vr.IS, Integer.toString(frames.size()))
                    .items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, frames))
        .pixels(
            bits -> {
              byte[] one = unpacked(bits, pixels * items.size(), 1);
              byte[] labels = new byte[pixels * frames.size()];
              int at = 0;
              for (List<Integer> parts : places.values()) {
                for (int part : parts) {
                  byte number = (byte) segment(items.get(part));
                  for (int p = 0; p < pixels; p++) {
                    if (one[part * pixels + p] != 0) {
                      labels[at * pixels + p] = number;
                    }
                  }
                }
                at++;
              }
              return labels;
            });
  }

  private static void bytes(Dataset.Builder b) {
    b.numbers(Tags.BITS_ALLOCATED, Vr.US, 8)
        .numbers(Tags.BITS_STORED, Vr.US, 8)
        .numbers(Tags.HIGH_BIT, Vr.US, 7);
  }

  private static byte[] unpacked(byte[] bits, int pixels, int inside) {
    byte[] bytes = new byte[pixels];
    for (int i = 0; i < pixels; i++) {
      bytes[i] = (bits[i >> 3] >> (i & 7) & 1) == 1 ? (byte) inside : 0;
    }
    return bytes;
  }

  private static int pixels(Dataset object) {
    return number(object, Tags.ROWS)
        * number(object, Tags.COLUMNS)
        * object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE).size();
  }

  private static int frame(Dataset item) {
    Dataset source =
        item.items(Tags.DERIVATION_IMAGE_SEQUENCE).get(0).items(Tags.SOURCE_IMAGE_SEQUENCE).get(0);
    return Integer.parseInt(source.text(Tags.REFERENCED_FRAME_NUMBER).orElseThrow());
  }

  private static int segment(Dataset item) {
    return number(
        item.items(Tags.SEGMENT_IDENTIFICATION_SEQUENCE).get(0), Tags.REFERENCED_SEGMENT_NUMBER);
  }

  private static int number(Dataset data, int tag) {
    return ((Element.Numbers) data.element(tag).orElseThrow()).values().get(0).intValue();
  }
}

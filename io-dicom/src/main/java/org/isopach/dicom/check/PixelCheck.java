package org.isopach.dicom.check;

import java.util.Optional;
import org.isopach.dicom.check.Violation.Rule;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;

/** Judges whether the attributes of the pixels fit each other and the pixel data. */
final class PixelCheck {
  private static final int[][] PALETTES = {
    {Tags.RED_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR, Tags.RED_PALETTE_COLOR_LOOKUP_TABLE_DATA},
    {Tags.GREEN_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR, Tags.GREEN_PALETTE_COLOR_LOOKUP_TABLE_DATA},
    {Tags.BLUE_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR, Tags.BLUE_PALETTE_COLOR_LOOKUP_TABLE_DATA},
  };

  private final Collector collector;

  PixelCheck(Collector collector) {
    this.collector = collector;
  }

  void check(Dataset dataset, PixelContent pixels) {
    depth(dataset);
    length(dataset, pixels);
    for (int[] palette : PALETTES) {
      palette(dataset, palette[0], palette[1]);
    }
    for (int i = 0; i < dataset.items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE).size(); i++) {
      mapping(dataset, dataset.items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE).get(i), i);
    }
  }

  private void depth(Dataset dataset) {
    Optional<Long> allocated = Values.whole(dataset, Tags.BITS_ALLOCATED);
    Optional<Long> stored = Values.whole(dataset, Tags.BITS_STORED);
    Optional<Long> high = Values.whole(dataset, Tags.HIGH_BIT);
    if (allocated.isPresent() && stored.isPresent() && stored.get() > allocated.get()) {
      broken(Tags.BITS_STORED, "at most Bits Allocated, " + allocated.get(), stored.get());
    }
    if (stored.isPresent() && high.isPresent() && high.get() != stored.get() - 1) {
      broken(Tags.HIGH_BIT, "Bits Stored less 1, " + (stored.get() - 1), high.get());
    }
  }

  private void length(Dataset dataset, PixelContent pixels) {
    if (pixels.nativeBytes() < 0) {
      if (pixels.present()) {
        collector.unchecked(
            Collector.path("", Tags.PIXEL_DATA), "the length of compressed pixel data");
      }
      return;
    }
    Optional<Long> rows = Values.whole(dataset, Tags.ROWS);
    Optional<Long> columns = Values.whole(dataset, Tags.COLUMNS);
    Optional<Long> samples = Values.whole(dataset, Tags.SAMPLES_PER_PIXEL);
    Optional<Long> allocated = Values.whole(dataset, Tags.BITS_ALLOCATED);
    if (rows.isEmpty() || columns.isEmpty() || samples.isEmpty() || allocated.isEmpty()) {
      return;
    }
    long frames = Values.whole(dataset, Tags.NUMBER_OF_FRAMES).orElse(1L);
    long bits = rows.get() * columns.get() * samples.get() * allocated.get() * frames;
    long bytes = (bits + 7) / 8;
    long padded = bytes + bytes % 2;
    if (pixels.nativeBytes() != bytes && pixels.nativeBytes() != padded) {
      broken(Tags.PIXEL_DATA, bytes + " bytes", pixels.nativeBytes());
    }
  }

  private void palette(Dataset dataset, int descriptorTag, int dataTag) {
    if (!(dataset.element(descriptorTag).orElse(null) instanceof Element.Numbers descriptor)
        || descriptor.values().size() != 3
        || !(dataset.element(dataTag).orElse(null) instanceof Element.Bytes data)) {
      return;
    }
    long entries = Math.round(descriptor.values().get(0));
    long expected = (entries == 0 ? 65536 : entries) * 2;
    if (data.value().length() != expected) {
      broken(dataTag, expected + " bytes as its descriptor says", data.value().length());
    }
  }

  private void mapping(Dataset dataset, Dataset item, int index) {
    Optional<Long> first = Values.whole(item, Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED);
    Optional<Long> last = Values.whole(item, Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED);
    String path =
        Collector.path(
            Collector.item(Collector.path("", Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE), index),
            Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED);
    if (first.isPresent() && last.isPresent() && first.get() > last.get()) {
      collector.violation(path, Rule.PIXELS, "at least " + first.get(), last.get().toString());
    }
    Optional<Long> stored = Values.whole(dataset, Tags.BITS_STORED);
    if (last.isPresent() && stored.isPresent() && last.get() >= 1L << stored.get()) {
      String expected = "a value of " + stored.get() + " bits";
      collector.violation(path, Rule.PIXELS, expected, last.get().toString());
    }
  }

  private void broken(int tag, String expected, long actual) {
    collector.violation(Collector.path("", tag), Rule.PIXELS, expected, Long.toString(actual));
  }
}

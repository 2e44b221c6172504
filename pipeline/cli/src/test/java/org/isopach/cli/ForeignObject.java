package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;

/** An object as another, invented system would write it: one of ours, changed. Immutable. */
final class ForeignObject {
  static final String SOFTWARE = "Gannet Imaging Kittiwake 4.1";

  private final Dataset attributes;
  private final byte[] pixels;

  private ForeignObject(Dataset attributes, byte[] pixels) {
    this.attributes = attributes;
    this.pixels = pixels;
  }

  /** Returns an object of ours under another maker's name and another UID. */
  static ForeignObject of(Path ours, String uid) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(ours, new PixelMedObjectReader());
    byte[] pixels = {};
    if (object.pixels().isPresent()) {
      PixelLocation at = object.pixels().get();
      pixels = object.source().read(at.offset(), (int) at.length());
    }
    return new ForeignObject(object.attributes(), pixels)
        .with(
            b ->
                b.text(Tags.MANUFACTURER, Vr.LO, "Gannet Imaging")
                    .text(Tags.MANUFACTURER_MODEL_NAME, Vr.LO, "Kittiwake")
                    .text(Tags.SOFTWARE_VERSIONS, Vr.LO, "4.1")
                    .text(Tags.SOP_INSTANCE_UID, Vr.UI, uid));
  }

  /** Returns the object with other attributes. */
  ForeignObject with(Consumer<Dataset.Builder> change) {
    Dataset.Builder builder = attributes.toBuilder();
    change.accept(builder);
    return new ForeignObject(builder.build(), pixels);
  }

  /** Returns the object with other pixels. */
  ForeignObject pixels(UnaryOperator<byte[]> change) {
    return new ForeignObject(attributes, change.apply(pixels.clone()));
  }

  /** Returns the object with every item of a sequence changed, at any depth. */
  ForeignObject inEvery(int sequence, UnaryOperator<Dataset> change) {
    return new ForeignObject(changed(attributes, sequence, change), pixels);
  }

  private static Dataset changed(Dataset old, int sequence, UnaryOperator<Dataset> change) {
    Dataset.Builder builder = old.toBuilder();
    for (Element element : old.elements()) {
      if (element instanceof Element.Sequence one) {
        List<Dataset> items =
            one.items().stream()
                .map(item -> changed(item, sequence, change))
                .map(item -> one.tag() == sequence ? change.apply(item) : item)
                .toList();
        builder.items(one.tag(), items);
      }
    }
    return builder.build();
  }

  /** Returns the object's attributes. */
  Dataset attributes() {
    return attributes;
  }

  /** Returns the first item of a sequence of the object itself. */
  Dataset first(int sequence) {
    return attributes.items(sequence).get(0);
  }

  Path write(Path file) throws IOException {
    Files.createDirectories(file.getParent());
    DicomWriters.partTen().write(file, attributes, pixels);
    return file;
  }
}

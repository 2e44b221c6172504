package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/**
 * One phantom scan, stored in the many ways the standard allows; written attribute by attribute,
 * with no part of the phantom's own writer. Frames are straight; 8 bits unless said otherwise.
 */
final class StoredScan {
  static final String LOCALIZER_UID = "2.25.7002";
  private static final int IMAGE_PIXELS = 1000;
  private static final double PIXEL_MM = 0.0105;
  private static final double AXIAL_MM = 0.00387;

  private final ScanSize size;
  private final List<byte[]> frames = new ArrayList<>();
  private final List<FundusPoint> starts = new ArrayList<>();
  private final List<FundusPoint> ends = new ArrayList<>();
  private final List<Consumer<Dataset.Builder>> changes = new ArrayList<>();
  private Laterality eye = Laterality.RIGHT;
  private boolean inPatientSpace;
  private int bits = 8;
  private boolean signed;
  private boolean inverted;

  private StoredScan(ScanSize size) {
    this.size = size;
  }

  /** Returns the mean right eye in a pattern, placed on a fundus image. */
  static StoredScan of(ScanPlan plan) {
    OctScan scan = PhantomScan.of(PhantomParameters.meanEye(Laterality.RIGHT), plan).scan();
    StoredScan stored = new StoredScan(scan.size());
    float[] grey = new float[scan.size().framePixels()];
    for (int f = 0; f < scan.size().frames(); f++) {
      try {
        scan.frames().read(f, grey);
      } catch (FrameReadException e) {
        throw new AssertionError(e);
      }
      byte[] bytes = new byte[grey.length];
      for (int i = 0; i < bytes.length; i++) {
        bytes[i] = (byte) Math.round(grey[i]);
      }
      stored.frames.add(bytes);
      stored.starts.add(scan.path().orElseThrow().point(f, 0));
      stored.ends.add(scan.path().orElseThrow().point(f, scan.size().ascans() - 1));
    }
    return stored;
  }

  StoredScan copy() {
    return keeping(size.frames());
  }

  /** Returns the first so many frames. */
  StoredScan keeping(int count) {
    StoredScan other = new StoredScan(new ScanSize(count, size.ascans(), size.depths()));
    for (int f = 0; f < count; f++) {
      other.add(frames.get(f), starts.get(f), ends.get(f));
    }
    return other;
  }

  private void add(byte[] frame, FundusPoint start, FundusPoint end) {
    frames.add(frame);
    starts.add(start);
    ends.add(end);
  }

  /** Returns the same frames, the last one first. */
  StoredScan lastFrameFirst() {
    StoredScan other = new StoredScan(size);
    for (int f = size.frames() - 1; f >= 0; f--) {
      other.add(frames.get(f), starts.get(f), ends.get(f));
    }
    return other;
  }

  /** Returns the same frames, each run through from its other end. */
  StoredScan fromTheOtherEnd() {
    StoredScan other = new StoredScan(size);
    for (int f = 0; f < size.frames(); f++) {
      other.add(turned(frames.get(f), true, false), ends.get(f), starts.get(f));
    }
    return other;
  }

  /** Returns the mirror image: the same eye's frames as if of the other eye. */
  StoredScan mirrored() {
    StoredScan other = new StoredScan(size);
    for (int f = 0; f < size.frames(); f++) {
      other.add(frames.get(f), mirror(starts.get(f)), mirror(ends.get(f)));
    }
    other.eye = eye.other();
    return other;
  }

  /** Returns the frames with the vitreous at the bottom. */
  StoredScan upsideDown() {
    StoredScan other = new StoredScan(size);
    for (int f = 0; f < size.frames(); f++) {
      other.add(turned(frames.get(f), false, true), starts.get(f), ends.get(f));
    }
    return other;
  }

  /** Returns frames that show one grey. */
  StoredScan blank() {
    StoredScan other = new StoredScan(size);
    byte[] grey = new byte[size.framePixels()];
    Arrays.fill(grey, (byte) 77);
    for (int f = 0; f < size.frames(); f++) {
      other.add(grey, starts.get(f), ends.get(f));
    }
    return other;
  }

  private static FundusPoint mirror(FundusPoint point) {
    return new FundusPoint(IMAGE_PIXELS * PIXEL_MM - point.xMm(), point.yMm());
  }

  private byte[] turned(byte[] frame, boolean sideways, boolean upsideDown) {
    byte[] turned = new byte[frame.length];
    for (int d = 0; d < size.depths(); d++) {
      for (int a = 0; a < size.ascans(); a++) {
        int fromD = upsideDown ? size.depths() - 1 - d : d;
        int fromA = sideways ? size.ascans() - 1 - a : a;
        turned[d * size.ascans() + a] = frame[fromD * size.ascans() + fromA];
      }
    }
    return turned;
  }

  /** Places frames by Plane Position and Orientation (Patient) alone. */
  StoredScan inPatientSpace() {
    inPatientSpace = true;
    return this;
  }

  /** Stores 8 bits, or 12 or 16 in cells of 16. */
  StoredScan bits(int stored, boolean isSigned) {
    bits = stored;
    signed = isSigned;
    return this;
  }

  /** Stores as MONOCHROME1. */
  StoredScan inverted() {
    inverted = true;
    return this;
  }

  /** Changes attributes after all else. */
  StoredScan with(Consumer<Dataset.Builder> change) {
    changes.add(change);
    return this;
  }

  /** Writes the object under a name that also makes its UID, and returns the file. */
  Path write(Path folder, String name) throws IOException {
    return write(folder.resolve(name), "2.25.9" + Integer.toUnsignedString(name.hashCode()), 0);
  }

  /** Writes the object with so many bytes of pixel data too few. */
  Path write(Path file, String uid, int missing) throws IOException {
    Dataset.Builder object =
        Dataset.builder()
            .text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.77.1.5.4")
            .text(Tags.SOP_INSTANCE_UID, Vr.UI, uid)
            .text(Tags.ACQUISITION_DATETIME, Vr.DT, "20260203101500")
            .text(Tags.PATIENT_ID, Vr.LO, "TSEU-30001")
            .text(Tags.STUDY_INSTANCE_UID, Vr.UI, "2.25.7003")
            .text(Tags.SERIES_INSTANCE_UID, Vr.UI, "2.25.7004")
            .text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, "2.25.7005")
            .text(Tags.IMAGE_LATERALITY, Vr.CS, eye.code());
    pixelAttributes(object);
    frameAttributes(object);
    changes.forEach(change -> change.accept(object));
    byte[] all = pixels();
    byte[] bytes = Arrays.copyOf(all, all.length - missing);
    DicomWriters.partTen().write(file, object.build(), bytes);
    return file;
  }

  private void pixelAttributes(Dataset.Builder object) {
    object
        .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
        .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, inverted ? "MONOCHROME1" : "MONOCHROME2")
        .text(Tags.NUMBER_OF_FRAMES, Vr.IS, Integer.toString(size.frames()))
        .numbers(Tags.ROWS, Vr.US, size.depths())
        .numbers(Tags.COLUMNS, Vr.US, size.ascans())
        .numbers(Tags.BITS_ALLOCATED, Vr.US, bits == 8 ? 8 : 16)
        .numbers(Tags.BITS_STORED, Vr.US, bits)
        .numbers(Tags.HIGH_BIT, Vr.US, bits - 1)
        .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, signed ? 1 : 0);
  }

  private void frameAttributes(Dataset.Builder object) {
    FundusPoint along = ends.get(0).minus(starts.get(0));
    double spacing = Math.hypot(along.xMm(), along.yMm()) / (size.ascans() - 1);
    object.items(
        Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
        Dataset.builder()
            .items(
                Tags.PIXEL_MEASURES_SEQUENCE,
                spacing(Double.toString(AXIAL_MM), String.format(Locale.ROOT, "%.12f", spacing)))
            .build());
    List<Dataset> groups = new ArrayList<>();
    for (int f = 0; f < size.frames(); f++) {
      groups.add(inPatientSpace ? plane(f) : location(f));
    }
    object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE, groups);
  }

  /** Returns the item of a Pixel Measures Sequence. */
  static Dataset spacing(String... values) {
    return Dataset.builder().text(Tags.PIXEL_SPACING, Vr.DS, values).build();
  }

  private Dataset location(int f) {
    FundusPoint start = starts.get(f);
    FundusPoint end = ends.get(f);
    return Dataset.builder()
        .items(
            Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE,
            Dataset.builder()
                .text(Tags.REFERENCED_SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.77.1.5.1")
                .text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, LOCALIZER_UID)
                .numbers(
                    Tags.REFERENCE_COORDINATES,
                    Vr.FL,
                    start.yMm() / PIXEL_MM,
                    start.xMm() / PIXEL_MM,
                    end.yMm() / PIXEL_MM,
                    end.xMm() / PIXEL_MM)
                .text(Tags.OPHTHALMIC_IMAGE_ORIENTATION, Vr.CS, "LINEAR")
                .build())
        .build();
  }

  /** DICOM PS3.3, C.7.6.2.1.1: X to the patient's left, Z to the head, Y to the back. */
  private Dataset plane(int f) {
    FundusPoint start = starts.get(f);
    FundusPoint along = ends.get(f).minus(start);
    double length = Math.hypot(along.xMm(), along.yMm());
    return Dataset.builder()
        .items(
            Tags.PLANE_POSITION_SEQUENCE,
            Dataset.builder()
                .text(
                    Tags.IMAGE_POSITION_PATIENT,
                    Vr.DS,
                    decimal(start.xMm()),
                    "0",
                    decimal(-start.yMm()))
                .build())
        .items(
            Tags.PLANE_ORIENTATION_SEQUENCE,
            Dataset.builder()
                .text(
                    Tags.IMAGE_ORIENTATION_PATIENT,
                    Vr.DS,
                    decimal(along.xMm() / length),
                    "0",
                    decimal(-along.yMm() / length),
                    "0",
                    "1",
                    "0")
                .build())
        .build();
  }

  private static String decimal(double value) {
    return String.format(Locale.ROOT, "%.10f", value);
  }

  private byte[] pixels() {
    int bytes = bits == 8 ? 1 : 2;
    int length = size.frames() * size.framePixels() * bytes;
    byte[] out = new byte[length + (length & 1)];
    int at = 0;
    for (byte[] frame : frames) {
      for (byte grey : frame) {
        int value = grey & 0xff;
        value = inverted ? 255 - value : value;
        value = bits == 8 ? value : (value << (bits - 8)) | (value >> (16 - bits));
        value = signed ? value - (1 << (bits - 1)) : value;
        out[at++] = (byte) value;
        if (bytes == 2) {
          out[at++] = (byte) (value >> 8);
        }
      }
    }
    return out;
  }

  /** Writes the fundus image that frames are placed on. */
  static void writeLocalizer(Path file, boolean withSpacing) throws IOException {
    Dataset.Builder image =
        Dataset.builder()
            .text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.77.1.5.1")
            .text(Tags.SOP_INSTANCE_UID, Vr.UI, LOCALIZER_UID)
            .text(Tags.PATIENT_ID, Vr.LO, "TSEU-30001")
            .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
            .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
            .numbers(Tags.ROWS, Vr.US, IMAGE_PIXELS)
            .numbers(Tags.COLUMNS, Vr.US, IMAGE_PIXELS)
            .numbers(Tags.BITS_ALLOCATED, Vr.US, 8)
            .numbers(Tags.BITS_STORED, Vr.US, 8)
            .numbers(Tags.HIGH_BIT, Vr.US, 7)
            .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0);
    if (withSpacing) {
      String mm = Double.toString(PIXEL_MM);
      image.text(Tags.PIXEL_SPACING, Vr.DS, mm, mm);
    }
    DicomWriters.partTen().write(file, image.build(), new byte[IMAGE_PIXELS * IMAGE_PIXELS]);
  }
}

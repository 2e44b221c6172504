package org.isopach.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.fixtures.dicom.ObjectContext;
import org.isopach.fixtures.dicom.PhantomObjects;
import org.isopach.fixtures.dicom.TomographyObject;
import org.isopach.fixtures.phantom.NamedUid;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/**
 * Writes volumes of 49 frames of 512 A-scans and 496 depths. A few phantoms are rendered once;
 * every file is one of them under an identity of its own, so that none is taken for a duplicate.
 */
final class BenchFiles {
  private static final int DISTINCT = 2;
  private static final long FIRST_SEED = 4000;
  private static final LocalDateTime TIME = LocalDateTime.of(2026, 1, 12, 9, 0);
  private static final ObjectContext CONTEXT =
      new ObjectContext(
          "Bench",
          Optional.empty(),
          "",
          new ObjectContext.Study("BENCH", "BENCH", "Macula", TIME),
          Optional.empty(),
          new ObjectContext.Instrument(
              "Tern Sound Instruments", "Skerry 2", "SK2-0042", "phantom", "Tern Sound Eye Unit"),
          "Made by a program; shows no person");

  private final List<OctScan> rendered;

  private BenchFiles(List<OctScan> rendered) {
    this.rendered = rendered;
  }

  /** Renders the phantoms; keeps their frames in memory. */
  static BenchFiles rendered() throws FrameReadException {
    List<OctScan> scans = new ArrayList<>();
    for (int i = 0; i < DISTINCT; i++) {
      PhantomParameters parameters = PhantomParameters.draw(FIRST_SEED + i);
      scans.add(kept(PhantomScan.of(parameters, ScanPlan.typical()).scan()));
    }
    return new BenchFiles(scans);
  }

  /** Writes volumes {@code from} to {@code to - 1} into a folder. */
  void write(Path folder, int from, int to) throws IOException {
    Files.createDirectories(folder);
    for (int i = from; i < to; i++) {
      OctScan scan = rendered.get(i % rendered.size());
      Path file = folder.resolve(String.format(Locale.ROOT, "%06d", i));
      OctScan named = with(scan, identity(i), scan.frames());
      TomographyObject.write(file, PhantomObjects.inPatientSpace(named), CONTEXT);
    }
  }

  /**
   * Writes visits of one eye, 28 days apart: one phantom whose greys differ by a step at random.
   */
  void writeVisits(Path folder, int count) throws IOException {
    Files.createDirectories(folder);
    OctScan scan = rendered.get(0);
    for (int i = 0; i < count; i++) {
      int seed = i;
      FrameSource noisy =
          (frame, into) -> {
            scan.frames().read(frame, into);
            Random random = new Random(1000L * seed + frame);
            for (int k = 0; k < into.length; k++) {
              into[k] = Math.max(0, Math.min(255, into[k] + random.nextInt(9) - 4));
            }
          };
      String name = "bench visit " + i;
      ScanIdentity identity =
          new ScanIdentity(
              "BENCH-SERIES",
              NamedUid.of(name + " study"),
              NamedUid.of(name + " series"),
              NamedUid.of(name + " scan"),
              Optional.of(TIME.plusDays(28L * i)));
      Path file = folder.resolve(String.format(Locale.ROOT, "%06d", i));
      OctScan named = with(scan, identity, noisy);
      TomographyObject.write(file, PhantomObjects.inPatientSpace(named), CONTEXT);
    }
  }

  private static ScanIdentity identity(int index) {
    String name = "bench volume " + index;
    return new ScanIdentity(
        "BENCH-" + index,
        NamedUid.of(name + " study"),
        NamedUid.of(name + " series"),
        NamedUid.of(name + " scan"),
        Optional.of(TIME.plusMinutes(index)));
  }

  /** Returns a scan whose frames are held in memory, in 8 bits. */
  static OctScan kept(OctScan scan) throws FrameReadException {
    byte[][] frames = new byte[scan.size().frames()][scan.size().framePixels()];
    float[] values = new float[scan.size().framePixels()];
    for (int f = 0; f < frames.length; f++) {
      scan.frames().read(f, values);
      for (int i = 0; i < values.length; i++) {
        frames[f][i] = (byte) Math.round(values[i]);
      }
    }
    FrameSource source =
        (frame, into) -> {
          for (int i = 0; i < into.length; i++) {
            into[i] = frames[frame][i] & 0xff;
          }
        };
    return with(scan, scan.identity(), source);
  }

  private static OctScan with(OctScan scan, ScanIdentity identity, FrameSource frames) {
    return new OctScan(
        identity,
        scan.document(),
        scan.laterality(),
        scan.size(),
        scan.axial(),
        scan.path(),
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }
}

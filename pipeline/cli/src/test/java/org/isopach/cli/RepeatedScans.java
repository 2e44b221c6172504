package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.ObjectContext;
import org.isopach.fixtures.dicom.PhantomObjects;
import org.isopach.fixtures.phantom.EyeTraits;
import org.isopach.fixtures.phantom.Motion;
import org.isopach.fixtures.phantom.NamedUid;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.Placement;
import org.isopach.fixtures.phantom.ScanPlan;

/** Writes repeated scans of invented eyes that hold still, of good signal, into a folder. */
final class RepeatedScans {
  private static final LocalDateTime DAY = LocalDateTime.of(2026, 3, 9, 9, 30);
  private static final ScanPlan PLAN =
      ScanPlan.raster(new ScanSize(23, 128, 400), 3.87, 6.6, 6.6, 0);

  private final Path folder;

  RepeatedScans(Path folder) {
    this.folder = folder;
  }

  /** Writes a scan made some minutes after the first of all; equal repeats have equal frames. */
  void write(String name, String patient, Laterality side, int repeat) throws IOException {
    long eye = 10L * patient.hashCode() + (side == Laterality.RIGHT ? 1 : 2);
    PhantomParameters parameters =
        PhantomParameters.meanEye(side)
            .withEye(new EyeTraits(eye, 1))
            .rescanned(eye + 1000L * repeat)
            .withPlacement(Placement.level().withDecentration(0.06 * repeat, -0.04 * repeat))
            .withMotion(Motion.none())
            .withSnr(28);
    PhantomScan scan = PhantomScan.of(parameters, PLAN);
    String study = patient + " repeats";
    ScanIdentity identity =
        new ScanIdentity(
            patient,
            NamedUid.of(study),
            NamedUid.of(study + name + " series"),
            NamedUid.of(study + name + " tomography"),
            Optional.of(DAY.plusMinutes(repeat)));
    PhantomObjects.writePlaced(folder.resolve(name), scan.withIdentity(identity), CONTEXT);
  }

  private static final ObjectContext CONTEXT =
      new ObjectContext(
          "Tideline^Wren",
          Optional.empty(),
          "F",
          new ObjectContext.Study("SP-R", "TSEU26-1", "Repeats", DAY),
          Optional.empty(),
          new ObjectContext.Instrument(
              "Tern Sound Instruments", "Skerry 2", "SK2-0042", "phantom", "Tern Sound Eye Unit"),
          "Made by a program; shows no person");
}

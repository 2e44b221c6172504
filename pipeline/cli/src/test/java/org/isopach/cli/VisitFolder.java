package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.dicom.ObjectContext;
import org.isopach.fixtures.dicom.PhantomObjects;
import org.isopach.fixtures.dicom.TomographyObject;
import org.isopach.fixtures.phantom.EyeTraits;
import org.isopach.fixtures.phantom.Footprint;
import org.isopach.fixtures.phantom.Lesion;
import org.isopach.fixtures.phantom.NamedUid;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.fixtures.phantom.SubretinalFluid;

/** Writes invented visits of one patient, scan by scan, into a folder. */
final class VisitFolder {
  static final String PATIENT = "TSEU-30518";
  static final LocalDateTime START = LocalDateTime.of(2026, 1, 5, 9, 30);
  static final ScanPlan PLAN = ScanPlan.raster(new ScanSize(19, 128, 496), 3.87, 6.4, 6.4, 0);

  private final Path folder;
  private final ScanPlan plan;

  VisitFolder(Path folder) {
    this(folder, PLAN);
  }

  VisitFolder(Path folder, ScanPlan plan) {
    this.folder = folder;
    this.plan = plan;
  }

  /** Writes a scan of an eye that swells by some µm at the fovea, over fluid of some µm. */
  Path write(String name, Laterality eye, int day, double swellingUm, double fluidUm)
      throws IOException {
    return write(name, eye, Optional.of(START.plusDays(day)), "day " + day, swellingUm, fluidUm);
  }

  Path write(
      String name,
      Laterality eye,
      Optional<LocalDateTime> acquired,
      String study,
      double swellingUm,
      double fluidUm)
      throws IOException {
    List<Lesion> lesions = new ArrayList<>();
    if (swellingUm > 0) {
      lesions.add(new Lesion.Swelling(swellingUm, 2.0, -0.9, 0.5, Lesion.Profile.GAUSSIAN, 0.2));
    }
    if (fluidUm > 0) {
      lesions.add(new SubretinalFluid(new Footprint(1.3, -0.6, 0.8, 0.6, 20, 3, 0.1), fluidUm, 0));
    }
    long seed = eye == Laterality.RIGHT ? 7301 : 7302;
    PhantomParameters eyeOf =
        PhantomParameters.draw(seed + name.hashCode() % 1000)
            .withEye(new EyeTraits(seed, 1))
            .withLaterality(eye)
            .withLesions(lesions);
    return write(name, PhantomScan.of(eyeOf, plan).scan(), acquired, study);
  }

  private Path write(String name, OctScan scan, Optional<LocalDateTime> acquired, String study)
      throws IOException {
    Files.createDirectories(folder);
    ScanIdentity identity =
        new ScanIdentity(
            PATIENT,
            NamedUid.of(PATIENT + study),
            NamedUid.of(PATIENT + study + name + " series"),
            NamedUid.of(PATIENT + study + name + " scan"),
            acquired);
    OctScan named =
        new OctScan(
            identity,
            scan.document(),
            scan.laterality(),
            scan.size(),
            scan.axial(),
            scan.path(),
            scan.reference(),
            scan.statedAxialLengthMm(),
            scan.grey(),
            scan.frames());
    Path file = folder.resolve(name);
    TomographyObject.write(file, PhantomObjects.inPatientSpace(named), context(study));
    return file;
  }

  private static ObjectContext context(String study) {
    return new ObjectContext(
        "Tideline^Pipit",
        Optional.empty(),
        "",
        new ObjectContext.Study("SP018", "TSEU26", "Macula " + study, START),
        Optional.empty(),
        new ObjectContext.Instrument(
            "Tern Sound Instruments", "Skerry 2", "SK2-0042", "phantom", "Tern Sound Eye Unit"),
        "Made by a program; shows no person");
  }
}

package org.isopach.job;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.scan.FrameSource;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanDescription;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/** Small phantom scans for the job, changed in one point each. */
final class SampleScans {
  static final ScanPlan SMALL = ScanPlan.raster(new ScanSize(19, 96, 400), 3.87, 6.4, 6.4, 0);

  private static final LocalDateTime START = LocalDateTime.of(2026, 2, 3, 10, 0);

  private SampleScans() {}

  /** Returns a good scan of a right eye at a visit, named by its location. */
  static OctScan right(String location, int visit) {
    return scan(location, visit, SMALL);
  }

  static OctScan scan(String location, int visit, ScanPlan plan) {
    return scan(location, visit, plan, PhantomParameters.meanEye(Laterality.RIGHT));
  }

  /** Returns a scan whose middle lies some mm nasal of the fovea. */
  static OctScan scanAwayFromFovea(String location, ScanPlan plan, double nasalMm) {
    PhantomParameters eye = PhantomParameters.meanEye(Laterality.RIGHT);
    OctScan made =
        PhantomScan.of(eye.withPlacement(eye.placement().withDecentration(nasalMm, 0.4)), plan)
            .scan();
    return renamed(location, 0, made);
  }

  private static OctScan scan(
      String location, int visit, ScanPlan plan, PhantomParameters parameters) {
    return renamed(location, visit, PhantomScan.of(parameters.rescanned(visit), plan).scan());
  }

  private static OctScan renamed(String location, int visit, OctScan made) {
    return new OctScan(
        new ScanIdentity(
            "TSEU-1",
            "1.2.3." + visit,
            "1.2.3." + visit + ".1",
            "1.2.3." + visit + "." + Integer.toUnsignedString(location.hashCode()),
            Optional.of(START.plusDays(28L * visit))),
        new SourceDocument(location, "00"),
        made.laterality(),
        made.size(),
        made.axial(),
        made.path(),
        made.reference(),
        made.statedAxialLengthMm(),
        made.grey(),
        made.frames());
  }

  static OctScan withIdentity(OctScan scan, ScanIdentity identity) {
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
        scan.frames());
  }

  static OctScan located(OctScan scan, String location) {
    return new OctScan(
        scan.identity(),
        new SourceDocument(location, "00"),
        scan.laterality(),
        scan.size(),
        scan.axial(),
        scan.path(),
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        scan.frames());
  }

  static OctScan withFrames(OctScan scan, FrameSource frames) {
    return with(scan, scan.laterality(), scan.path(), scan.axial(), frames);
  }

  static OctScan withoutLaterality(OctScan scan) {
    return with(scan, Optional.empty(), scan.path(), scan.axial(), scan.frames());
  }

  static OctScan withoutPath(OctScan scan) {
    return with(scan, scan.laterality(), Optional.empty(), scan.axial(), scan.frames());
  }

  static OctScan withIndex(OctScan scan, double refractiveIndex) {
    AxialScale axial =
        new AxialScale(scan.axial().micrometresPerPixel(), OptionalDouble.of(refractiveIndex));
    return with(scan, scan.laterality(), scan.path(), axial, scan.frames());
  }

  private static OctScan with(
      OctScan scan,
      Optional<Laterality> laterality,
      Optional<ScanPath> path,
      AxialScale axial,
      FrameSource frames) {
    return new OctScan(
        scan.identity(),
        scan.document(),
        laterality,
        scan.size(),
        axial,
        path,
        scan.reference(),
        scan.statedAxialLengthMm(),
        scan.grey(),
        frames);
  }

  static FolderContents contents(List<OctScan> scans, Finding... findings) {
    return new FolderContents(
        scans,
        scans.stream().map(SampleScans::description).toList(),
        List.of(),
        List.of(findings),
        scans.size());
  }

  private static ScanDescription description(OctScan scan) {
    return new ScanDescription(
        scan.identity().sopUid(),
        scan.document().location(),
        "20260203",
        "Tern Sound Works",
        "Harbour",
        "1.2.840.10008.1.2.1",
        8,
        8,
        false,
        false,
        ScanDescription.PlacementSource.FRAME_LOCATION,
        Optional.empty());
  }
}

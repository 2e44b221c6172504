package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.region.RegionScene;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.NerveLook;
import org.isopach.segment.NerveSegmenter;
import org.isopach.segment.RetinaSegmenter;
import org.isopach.segment.SegmentationResult;

/** Measures one scan: boundaries, centre, maps, sectors, regions. Writes nothing. */
public final class ScanMeasurer {
  private final ScanSegmenter segmenter;
  private final NerveLooker nerve;
  private final LayerMapper mapper;
  private final JobRequest request;

  /**
   * Makes a measurer.
   *
   * @param segmenter finds the boundaries of a macula
   * @param nerve asked where the centre of the grid may be the disc
   */
  ScanMeasurer(ScanSegmenter segmenter, NerveLooker nerve, LayerMapper mapper, JobRequest request) {
    this.segmenter = segmenter;
    this.nerve = nerve;
    this.mapper = mapper;
    this.request = request;
  }

  /**
   * Returns a measurer for what a request asks for; safe for use by several threads.
   *
   * @param pool runs frames and layers; not shut down here. No thread of it may call {@link
   *     #measure}
   */
  public static ScanMeasurer of(JobRequest request, ExecutorService pool) {
    return new ScanMeasurer(
        new RetinaSegmenter(pool, request.threads())::segment,
        new NerveSegmenter(pool, request.threads())::look,
        new LayerMapper(request, new SectorTabulator(), pool),
        request);
  }

  /**
   * Returns what is found in a scan; what cannot be measured becomes a finding.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  public MeasuredScan measure(OctScan scan) throws InterruptedException {
    long start = System.nanoTime();
    SegmentationResult found = segmenter.segment(scan);
    boolean disc = disc(scan, found);
    long segmented = System.nanoTime();
    List<Finding> findings = new ArrayList<>(found.findings());
    if (disc) {
      findings.removeIf(
          finding ->
              finding.kind() == FindingKind.DECENTRED
                  || finding.kind() == FindingKind.FOVEA_NOT_FOUND);
    }
    if (found.boundaries().isEmpty() && findings.stream().noneMatch(ScanMeasurer::refuses)) {
      findings.add(
          new Finding(
              FindingKind.UNSUPPORTED_ENCODING,
              scan.document().location(),
              "no frame could be decoded"));
    }
    Optional<Landmark> fovea = found.fovea().filter(pit -> !disc);
    Optional<Finding> obstacle =
        GridObstacle.of(scan)
            .or(() -> GridObstacle.of(scan, found))
            .or(() -> GridObstacle.ofDisc(scan, disc));
    Optional<MeasuredScan.Place> place = Optional.empty();
    List<MappedLayer> layers = List.of();
    List<RegionTable> regions = List.of();
    if (found.boundaries().isPresent()) {
      obstacle.ifPresent(findings::add);
      if (obstacle.isEmpty()) {
        place = Optional.of(place(scan, fovea));
        layers = map(scan, found.boundaries().get(), place.get(), findings);
      }
      regions = mapper.regions(scene(scan, found, place));
    }
    return new MeasuredScan(
        scan,
        found.boundaries(),
        place,
        layers,
        found.regions(),
        regions,
        findings,
        found.quality(),
        fovea,
        found.disc(),
        segmented - start,
        System.nanoTime() - segmented);
  }

  /**
   * Returns whether the place a grid would lie round is the disc: where no membrane lies under it,
   * the disc's opening is looked for.
   */
  private boolean disc(OctScan scan, SegmentationResult found) throws InterruptedException {
    if (found.boundaries().isEmpty() || GridObstacle.of(scan).isPresent()) {
      return false;
    }
    ScanPath path = scan.path().orElseThrow();
    FundusPoint centre = found.fovea().map(Landmark::point).orElseGet(path::middle);
    if (!NerveMeasurer.isVolume(path.pattern())
        || PitCheck.isFovea(centre, path, found.boundaries(), Optional.empty())) {
      return false;
    }
    NerveLook look = nerve.look(scan);
    return look.opening().isPresent()
        && !PitCheck.isFovea(centre, path, look.boundaries(), look.opening());
  }

  private static boolean refuses(Finding finding) {
    return finding.kind().gravity() == FindingKind.Gravity.NOT_MEASURED;
  }

  private List<MappedLayer> map(
      OctScan scan, BoundarySet boundaries, MeasuredScan.Place place, List<Finding> findings)
      throws InterruptedException {
    List<MappedLayer> layers = mapper.map(scan, boundaries, place);
    String location = scan.document().location();
    for (MappedLayer layer : layers) {
      if (request.pictured().contains(layer.map().layer())) {
        SectorFindings.of(layer, location, scan.path()).ifPresent(findings::add);
      }
    }
    SectorFindings.ofOthers(layers, request.pictured(), location).ifPresent(findings::add);
    LayersMissing.of(request, boundaries, location).ifPresent(findings::add);
    LateralityDoubt.of(layers, location).ifPresent(findings::add);
    return layers;
  }

  private RegionScene scene(
      OctScan scan, SegmentationResult found, Optional<MeasuredScan.Place> place) {
    double factor = request.axialLengths().factor(scan).orElse(1.0);
    return new RegionScene(
        scan,
        scan.path().map(path -> factor == 1 ? path : path.scaledBy(factor)),
        place.map(MeasuredScan.Place::centre),
        found.boundaries().orElseThrow(),
        found.regions());
  }

  /** The scan's path and its centre, both in the mm of the eye where its length is known. */
  private MeasuredScan.Place place(OctScan scan, Optional<Landmark> fovea) {
    ScanPath path = scan.path().orElseThrow();
    Landmark centre =
        fovea.orElseGet(() -> new Landmark(path.middle(), Landmark.Source.SCAN_MIDDLE));
    return request
        .axialLengths()
        .factor(scan)
        .map(
            factor -> new MeasuredScan.Place(path.scaledBy(factor), scaled(centre, factor), factor))
        .orElseGet(() -> new MeasuredScan.Place(path, centre, 1));
  }

  private static Landmark scaled(Landmark centre, double factor) {
    FundusPoint point = centre.point();
    return new Landmark(
        new FundusPoint(point.xMm() * factor, point.yMm() * factor), centre.source());
  }
}

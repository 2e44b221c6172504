package org.isopach.segment;

import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.scan.OctScan;

/** Traces all boundaries of a scan that was read: paths on the tissue maps, then edges in full. */
final class BoundaryTrace {
  private BoundaryTrace() {}

  /**
   * Returns the surfaces of all boundaries.
   *
   * @param confidence says how sure their depths are
   */
  static BoundarySet of(LoadedScan loaded, ConfidenceScale confidence, FrameLoop loop)
      throws InterruptedException {
    OctScan scan = loaded.scan();
    LayerVolume layers = LayerVolume.search(loaded.tissues(), loaded, loop);
    SurfaceBuilder surfaces = new SurfaceBuilder(scan.size(), confidence);
    loop.run(
        loaded.frames(),
        () -> {
          FrameTracer tracer =
              new FrameTracer(scan.axial(), RetinaSegmenter.ascanMicrometres(scan));
          return frame -> {
            if (layers.paths(frame) != null) {
              surfaces.add(
                  frame,
                  tracer.trace(
                      loaded.view(frame),
                      layers.map(frame),
                      layers.paths(frame),
                      loaded.contrastToNoise(frame)),
                  loaded.margins(frame),
                  layers.map(frame),
                  scan.axial().micrometresPerPixel());
            }
          };
        });
    return surfaces.build();
  }
}

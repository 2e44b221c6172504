package org.isopach.segment;

import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.scan.OctScan;

/** Traces all boundaries of a scan that was read: paths on the tissue maps, then edges in full. */
final class BoundaryTrace {
  private BoundaryTrace() {}

  /**
   * Returns the surfaces of all boundaries.
   *
   * @param learnt what the scan was read with
   */
  static BoundarySet of(LoadedScan loaded, Learnt learnt, FrameLoop loop)
      throws InterruptedException {
    OctScan scan = loaded.scan();
    LayerVolume layers = LayerVolume.search(loaded.tissues(), learnt.rules(), loaded, loop);
    SurfaceBuilder surfaces = new SurfaceBuilder(scan.size(), learnt.confidence());
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

package org.isopach.cli.bench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;

/** Reads a folder as the job does, digests included, and decodes every frame, and no more. */
final class DecodePass {
  private final int threads;

  DecodePass(int threads) {
    this.threads = threads;
  }

  /** Returns the number of frames decoded. */
  int run(Path folder) throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    try {
      int frames = 0;
      for (OctScan scan : DicomFolder.reader().read(List.of(folder)).scans()) {
        decode(scan, pool);
        frames += scan.size().frames();
      }
      return frames;
    } finally {
      pool.shutdownNow();
    }
  }

  private void decode(OctScan scan, ExecutorService pool) throws InterruptedException {
    AtomicInteger next = new AtomicInteger();
    List<Future<Void>> workers = new ArrayList<>();
    for (int t = 0; t < threads; t++) {
      workers.add(pool.submit(() -> decode(scan, next)));
    }
    for (Future<Void> worker : workers) {
      try {
        worker.get();
      } catch (ExecutionException e) {
        throw new IllegalStateException("cannot decode " + scan.document().location(), e);
      }
    }
  }

  private static Void decode(OctScan scan, AtomicInteger next) throws FrameReadException {
    float[] picture = new float[scan.size().framePixels()];
    for (int f = next.getAndIncrement(); f < scan.size().frames(); f = next.getAndIncrement()) {
      scan.frames().read(f, picture);
    }
    return null;
  }
}

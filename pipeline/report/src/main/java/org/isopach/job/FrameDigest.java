package org.isopach.job;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.Optional;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.Sha256;

/** Tells whether two scans hold the same pictures, however they are stored. */
final class FrameDigest {
  private FrameDigest() {}

  /** Returns a digest of all greys; empty when a frame cannot be read. */
  static Optional<String> of(OctScan scan) {
    MessageDigest digest = Sha256.start();
    float[] grey = new float[scan.size().framePixels()];
    ByteBuffer bytes = ByteBuffer.allocate(Float.BYTES * grey.length);
    for (int frame = 0; frame < scan.size().frames(); frame++) {
      try {
        scan.frames().read(frame, grey);
      } catch (FrameReadException e) {
        // Measuring says so; a scan that is not whole is taken for no copy.
        return Optional.empty();
      }
      bytes.clear();
      bytes.asFloatBuffer().put(grey);
      digest.update(bytes.array());
    }
    return Optional.of(Sha256.hex(digest));
  }
}

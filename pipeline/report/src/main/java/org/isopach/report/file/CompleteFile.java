package org.isopach.report.file;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import org.isopach.analysis.scan.Sha256;

/**
 * Writes a file so that nothing half-written ever stands under its name: to a temporary name in the
 * same folder, flushed and closed, then renamed over whatever was there.
 *
 * <p>The temporary name is fixed, {@code .NAME.part}, so that what an interrupted run leaves behind
 * is taken up by the next one.
 */
public final class CompleteFile {
  private static final int BUFFER_BYTES = 1 << 16;

  private CompleteFile() {}

  /** What goes into a file. */
  @FunctionalInterface
  public interface Content {
    /** Writes everything; the stream is buffered and closed by the caller. */
    void writeTo(OutputStream out) throws IOException;
  }

  /**
   * Makes or replaces a file, and its folder if need be.
   *
   * @return the SHA-256 digest of the bytes written, 64 lower-case hexadecimal digits
   * @throws IOException when the content or the disk refuses; the target is then as it was before
   */
  public static String write(Path target, Content content) throws IOException {
    Path absolute = target.toAbsolutePath();
    Files.createDirectories(absolute.getParent());
    Path part = absolute.resolveSibling("." + absolute.getFileName() + ".part");
    MessageDigest digest = Sha256.start();
    boolean whole = false;
    try {
      try (OutputStream out =
          new DigestOutputStream(
              new BufferedOutputStream(Files.newOutputStream(part), BUFFER_BYTES), digest)) {
        content.writeTo(out);
      }
      replace(part, absolute);
      whole = true;
    } finally {
      if (!whole) {
        Files.deleteIfExists(part);
      }
    }
    return Sha256.hex(digest);
  }

  private static void replace(Path part, Path target) throws IOException {
    try {
      Files.move(part, target, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
    }
  }
}

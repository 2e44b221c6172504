package org.isopach.dicom;

import java.nio.file.Path;
import java.util.List;

/** Finds scans and maps; where they are kept is the implementation's business. */
public interface ScanArchive {
  /**
   * Reads what is at some places, without decoding any frame and without changing anything there.
   *
   * <p>Whatever is wrong with a file or object becomes a finding; nothing wrong with one keeps the
   * others from being read.
   *
   * @param inputs files or folders, in any number and order; the same file twice counts once
   */
  FolderContents read(List<Path> inputs);
}

package org.isopach.job;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanDescription;

/** Keeps a run from measuring what an earlier run put into a folder among the inputs. */
final class OwnOutput {
  private final Path root;

  OwnOutput(Path root) {
    this.root = root.toAbsolutePath().normalize();
  }

  /** Returns contents without anything that lies in the run folder. */
  FolderContents leftOut(FolderContents contents) {
    List<OctScan> scans = new ArrayList<>();
    List<ScanDescription> descriptions = new ArrayList<>();
    for (int i = 0; i < contents.scans().size(); i++) {
      OctScan scan = contents.scans().get(i);
      if (outside(scan.document().location())) {
        scans.add(scan);
        descriptions.add(contents.descriptions().get(i));
      }
    }
    return new FolderContents(
        scans,
        descriptions,
        contents.maps().stream().filter(map -> outside(map.document().location())).toList(),
        contents.registrations().stream()
            .filter(one -> outside(one.document().location()))
            .toList(),
        contents.derived().stream().filter(one -> outside(one.location())).toList(),
        contents.findings().stream().filter(this::outside).toList(),
        contents.filesSeen());
  }

  private boolean outside(Finding finding) {
    return outside(finding.subject());
  }

  private boolean outside(String location) {
    return !Path.of(location).toAbsolutePath().normalize().startsWith(root);
  }
}

package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.report.Software;
import org.isopach.report.picture.FrameScene;
import org.isopach.report.picture.OverlayPicture;
import org.isopach.report.picture.RegionImage;

/** Writes what belongs to single frames: label images, and frames with what was found in them. */
final class FrameFiles {
  private final RunFolder folder;
  private final FrameOutputs wanted;
  private final Software software;

  FrameFiles(RunFolder folder, FrameOutputs wanted, Software software) {
    this.folder = folder;
    this.wanted = wanted;
    this.software = software;
  }

  List<FilePiece> of(MeasuredScan scan) {
    List<FilePiece> work = new ArrayList<>();
    if (scan.boundaries().isEmpty()) {
      return work;
    }
    if (wanted.regions()) {
      addLabels(scan, work);
    }
    Map<Integer, String> chosen = FrameChoice.of(scan, wanted.overlays());
    chosen.forEach((frame, why) -> work.add(piece(() -> overlay(scan, frame, why))));
    return work;
  }

  /** A frame nobody looked at has no label image: all 0 would say that nothing was found. */
  private void addLabels(MeasuredScan scan, List<FilePiece> work) {
    RegionLabels labels = scan.labels();
    String sopUid = scan.scan().identity().sopUid();
    for (int f = 0; f < labels.size().frames(); f++) {
      if (labels.searched(f) && !labels.searched().isEmpty()) {
        int frame = f;
        Path target = folder.regions(sopUid, frame);
        work.add(
            piece(() -> FileOutcome.written(target, RegionImage.write(target, labels, frame))));
      }
    }
  }

  private static FilePiece piece(Callable<FileOutcome> work) {
    return new FilePiece(FileKind.FRAME_PICTURE, work);
  }

  private FileOutcome overlay(MeasuredScan scan, int frame, String why) throws IOException {
    Path target = folder.overlay(scan.scan().identity().sopUid(), frame);
    Optional<ScanPath> path =
        scan.place().map(MeasuredScan.Place::path).or(() -> scan.scan().path());
    FrameScene scene =
        new FrameScene(
            scan.scan(),
            frame,
            why,
            path,
            scan.place().map(MeasuredScan.Place::centre),
            scan.boundaries().orElseThrow(),
            scan.labels());
    try {
      return FileOutcome.written(target, OverlayPicture.write(target, scene, software.title()));
    } catch (FrameReadException e) {
      return FileOutcome.refused(
          new Finding(
              FindingKind.FRAMES_UNREADABLE,
              scan.scan().document().location(),
              "frame " + frame + " not drawn: " + e.getMessage()));
    }
  }
}

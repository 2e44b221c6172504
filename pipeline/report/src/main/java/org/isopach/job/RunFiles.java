package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.report.Software;
import org.isopach.report.picture.ChangePicture;
import org.isopach.report.picture.PngFile;
import org.isopach.report.table.BoundaryTable;
import org.isopach.report.table.PlacedTable;

/** Writes what belongs to single scans: boundaries, pictures, objects, frames. */
final class RunFiles {
  private final RunFolder folder;
  private final JobRequest request;
  private final Software software;
  private final ObjectFiles objects;
  private final RegistrationFiles registrations;
  private final FrameFiles frames;
  private final ReportFiles reports;
  private final ExecutorService pool;
  private final JobListener listener;

  RunFiles(
      RunFolder folder,
      JobRequest request,
      Software software,
      ObjectFiles objects,
      RegistrationFiles registrations,
      ExecutorService pool,
      JobListener listener) {
    this.folder = folder;
    this.request = request;
    this.objects = objects;
    this.registrations = registrations;
    this.software = software;
    this.reports = new ReportFiles(folder, request, software, objects);
    this.frames = new FrameFiles(folder, request.frames(), software);
    this.pool = pool;
    this.listener = listener;
  }

  /** Returns what writes thickness maps in one way and registrations in the usual one. */
  static RunFiles of(
      RunFolder folder,
      JobRequest request,
      Software software,
      ThicknessMapWriter objects,
      ExecutorService pool,
      JobListener listener) {
    return new RunFiles(
        folder,
        request,
        software,
        new ObjectFiles(objects, folder, software),
        new RegistrationFiles(DicomWriters.registrations(), folder, software),
        pool,
        listener);
  }

  List<FileOutcome> write(MeasuredScan scan) throws InterruptedException {
    List<FilePiece> work = new ArrayList<>();
    if (request.outputs().contains(Output.BOUNDARIES) && scan.boundaries().isPresent()) {
      work.add(new FilePiece(FileKind.BOUNDARY_TABLE, () -> boundaries(scan)));
    }
    List<PaintedLayer> pictured =
        scan.layers().stream()
            .filter(layer -> request.pictured().contains(layer.map().layer()))
            .map(layer -> new PaintedLayer(layer, software))
            .toList();
    for (PaintedLayer layer : pictured) {
      work.addAll(picture(layer));
      if (request.outputs().contains(Output.OBJECTS)) {
        work.add(objects.map(scan, layer.layer()));
      }
    }
    if (request.outputs().contains(Output.OBJECTS)) {
      work.addAll(objects.others(scan));
    }
    work.addAll(frames.of(scan));
    if (request.outputs().contains(Output.REPORTS)) {
      work.addAll(reports.of(scan, pictured));
    }
    return all(work);
  }

  /** Writes the picture of a map that was made elsewhere. */
  List<FileOutcome> write(MappedLayer layer) throws InterruptedException {
    return all(picture(new PaintedLayer(layer, software)));
  }

  List<FileOutcome> write(ScanChange change) throws InterruptedException {
    List<FilePiece> work = new ArrayList<>();
    List<ScanChange.LayerChange> pictured =
        change.layers().stream()
            .filter(layer -> request.pictured().contains(layer.change().table().layer()))
            .toList();
    if (request.outputs().contains(Output.PICTURES)) {
      for (ScanChange.LayerChange layer : pictured) {
        work.add(new FilePiece(FileKind.CHANGE_PICTURE, () -> picture(layer)));
      }
    }
    if (request.outputs().contains(Output.OBJECTS) && change.laid().isPresent()) {
      for (ScanChange.LayerChange layer : pictured) {
        work.addAll(objects.change(change.laid().get(), layer));
      }
    }
    change.laid().flatMap(LaidPair::registration).ifPresent(found -> work.addAll(object(found)));
    if (request.outputs().contains(Output.BOUNDARIES)) {
      change
          .laid()
          .map(laid -> new FilePiece(FileKind.PLACED_TABLE, () -> placed(laid)))
          .ifPresent(work::add);
    }
    return all(work);
  }

  /** Writes a registration as an object, if objects are asked for. */
  List<FileOutcome> write(FoundRegistration found) throws InterruptedException {
    return all(object(found));
  }

  private List<FileOutcome> all(List<FilePiece> pieces) throws InterruptedException {
    return Workers.all(pool, pieces.stream().map(piece -> piece.heardBy(listener)).toList());
  }

  private FileOutcome boundaries(MeasuredScan scan) throws IOException {
    Path target = folder.boundaries(scan.scan().identity().sopUid());
    return FileOutcome.written(
        target, BoundaryTable.write(target, scan.boundaries().orElseThrow()));
  }

  private List<FilePiece> object(FoundRegistration found) {
    return request.outputs().contains(Output.OBJECTS)
        ? List.of(new FilePiece(FileKind.REGISTRATION, () -> registrations.write(found)))
        : List.of();
  }

  private FileOutcome placed(LaidPair laid) throws IOException {
    Path target = folder.placed(laid.followUp().scan().identity().sopUid());
    return FileOutcome.written(
        target,
        PlacedTable.write(
            target,
            laid.aligned().followUpPath(),
            laid.aligned().followUp().point(),
            laid.depths()::shiftUm));
  }

  private List<FilePiece> picture(PaintedLayer layer) {
    if (!request.outputs().contains(Output.PICTURES)) {
      return List.of();
    }
    ThicknessMap map = layer.layer().map();
    Path target = folder.map(map.scan().sopUid(), map.layer());
    return List.of(
        new FilePiece(
            FileKind.MAP_PICTURE,
            () -> FileOutcome.written(target, PngFile.write(target, layer.sheet()))));
  }

  private FileOutcome picture(ScanChange.LayerChange layer) throws IOException {
    Path target =
        folder.changePicture(
            layer.change().table().followUp().sopUid(), layer.change().table().layer());
    return FileOutcome.written(
        target,
        ChangePicture.write(target, layer.map(), layer.mask(), layer.change(), software.title()));
  }
}

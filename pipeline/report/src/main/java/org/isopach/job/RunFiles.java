package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
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

  RunFiles(
      RunFolder folder,
      JobRequest request,
      Software software,
      ObjectFiles objects,
      RegistrationFiles registrations,
      ExecutorService pool) {
    this.folder = folder;
    this.request = request;
    this.objects = objects;
    this.registrations = registrations;
    this.software = software;
    this.reports = new ReportFiles(folder, request, software, objects);
    this.frames = new FrameFiles(folder, request.frames(), software);
    this.pool = pool;
  }

  /** Returns what writes thickness maps in one way and registrations in the usual one. */
  static RunFiles of(
      RunFolder folder,
      JobRequest request,
      Software software,
      ThicknessMapWriter objects,
      ExecutorService pool) {
    return new RunFiles(
        folder,
        request,
        software,
        new ObjectFiles(objects, folder, software),
        new RegistrationFiles(DicomWriters.registrations(), folder, software),
        pool);
  }

  List<FileOutcome> write(MeasuredScan scan) throws InterruptedException {
    List<Callable<FileOutcome>> work = new ArrayList<>();
    String sopUid = scan.scan().identity().sopUid();
    if (request.outputs().contains(Output.BOUNDARIES) && scan.boundaries().isPresent()) {
      Path target = folder.boundaries(sopUid);
      work.add(
          () -> FileOutcome.written(target, BoundaryTable.write(target, scan.boundaries().get())));
    }
    List<PaintedLayer> pictured =
        scan.layers().stream()
            .filter(layer -> request.pictured().contains(layer.map().layer()))
            .map(layer -> new PaintedLayer(layer, software))
            .toList();
    for (PaintedLayer layer : pictured) {
      work.addAll(picture(layer));
      if (request.outputs().contains(Output.OBJECTS)) {
        work.add(() -> objects.write(scan, layer.layer()));
      }
    }
    if (request.outputs().contains(Output.OBJECTS)) {
      work.addAll(objects.others(scan));
    }
    work.addAll(frames.of(scan));
    List<Callable<List<FileOutcome>>> all = new ArrayList<>();
    work.forEach(one -> all.add(() -> List.of(one.call())));
    if (request.outputs().contains(Output.REPORTS)) {
      all.addAll(reports.of(scan, pictured));
    }
    return Workers.all(pool, all).stream().flatMap(List::stream).toList();
  }

  /** Writes the picture of a map that was made elsewhere. */
  List<FileOutcome> write(MappedLayer layer) throws InterruptedException {
    return Workers.all(pool, picture(new PaintedLayer(layer, software)));
  }

  List<FileOutcome> write(ScanChange change) throws InterruptedException {
    List<Callable<FileOutcome>> work = new ArrayList<>();
    if (request.outputs().contains(Output.PICTURES)) {
      for (ScanChange.LayerChange layer : change.layers()) {
        if (request.pictured().contains(layer.change().table().layer())) {
          work.add(() -> picture(layer));
        }
      }
    }
    if (request.outputs().contains(Output.OBJECTS) && change.laid().isPresent()) {
      for (ScanChange.LayerChange layer : change.layers()) {
        if (request.pictured().contains(layer.change().table().layer())) {
          work.addAll(objects.change(change.laid().get(), layer));
        }
      }
    }
    change.laid().flatMap(LaidPair::registration).ifPresent(found -> work.addAll(object(found)));
    if (request.outputs().contains(Output.BOUNDARIES)) {
      change.laid().ifPresent(laid -> work.add(() -> placed(laid)));
    }
    return Workers.all(pool, work);
  }

  /** Writes a registration as an object, if objects are asked for. */
  List<FileOutcome> write(FoundRegistration found) throws InterruptedException {
    return Workers.all(pool, object(found));
  }

  private List<Callable<FileOutcome>> object(FoundRegistration found) {
    return request.outputs().contains(Output.OBJECTS)
        ? List.of(() -> registrations.write(found))
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

  private List<Callable<FileOutcome>> picture(PaintedLayer layer) {
    if (!request.outputs().contains(Output.PICTURES)) {
      return List.of();
    }
    ThicknessMap map = layer.layer().map();
    Path target = folder.map(map.scan().sopUid(), map.layer());
    return List.of(() -> FileOutcome.written(target, PngFile.write(target, layer.sheet())));
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

package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.asymmetry.EyePairResult;
import org.isopach.report.Software;
import org.isopach.report.picture.AsymmetryPicture;

/** Draws how two eyes differ, in the layers that are to be drawn. */
final class AsymmetryPictures {
  private final JobRequest request;
  private final Software software;
  private final ExecutorService pool;

  AsymmetryPictures(JobRequest request, Software software, ExecutorService pool) {
    this.request = request;
    this.software = software;
    this.pool = pool;
  }

  List<FileOutcome> write(List<EyePairResult.Compared> layers) throws InterruptedException {
    if (!request.outputs().contains(Output.PICTURES)) {
      return List.of();
    }
    List<Callable<FileOutcome>> work =
        layers.stream()
            .filter(one -> request.pictured().contains(one.table().layer()))
            .<Callable<FileOutcome>>map(one -> () -> picture(one))
            .toList();
    return Workers.all(pool, work);
  }

  private FileOutcome picture(EyePairResult.Compared layer) throws IOException {
    Path target =
        new RunFolder(request.out())
            .asymmetryPicture(layer.table().right().sopUid(), layer.table().layer());
    return FileOutcome.written(
        target, AsymmetryPicture.write(target, layer.map(), layer.table(), software.title()));
  }
}

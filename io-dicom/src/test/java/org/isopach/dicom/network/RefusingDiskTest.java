package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that takes no more: the object is refused and the service goes on. */
class RefusingDiskTest {
  private static final String LONGEST_HALF_KIB = "64";

  @TempDir Path folder;

  @Test
  void refusesWhatTheDiskDoesNotTake() throws Exception {
    Path large = new TomographyBuilder().size(8, 100, 100).write(folder.resolve("large.dcm"));
    List<Path> small = Peers.objects(folder.resolve("in"), 0, 2);
    assertTrue(Files.size(large) > 64 * 1024);
    assertTrue(Files.size(small.get(0)) < 16 * 1024);
    Path out = folder.resolve("out");
    ListenerProcess listener = ListenerProcess.start(0, out, LONGEST_HALF_KIB);
    try {
      SendResult sent =
          StorageSender.send(
              Peers.to(listener.port()),
              List.of(small.get(0), large, small.get(1)),
              Optional.empty(),
              new HeardEvents());

      assertEquals(2, sent.sent());
      assertEquals(
          List.of(
              new SendResult.Failure(
                  large.toString(), "refused with status A700 cannot write to the disk")),
          sent.failures());
    } finally {
      listener.kill();
    }
    assertEquals(2, Peers.kept(out).size());
    assertEquals(List.of(), Peers.unfinished(out));
  }
}

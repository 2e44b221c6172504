package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.InstanceIdentity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that fills up. Where nothing may be mounted, {@link RefusingDiskTest} stands alone. */
class FullDiskTest {
  private static final int DISK_KIB = 256;

  @TempDir Path folder;

  @Test
  void refusesWhatTheDiskHasNoRoomForAndGoesOn() throws Exception {
    ToolRun mount =
        ToolRun.of("unshare", "-rm", "sh", "-c", "mount -t tmpfs -o size=64k tmpfs " + folder);
    assumeTrue(mount.exit() == 0, "nothing may be mounted here: " + mount.output());
    Path large = new TomographyBuilder().size(8, 200, 200).write(folder.resolve("large.dcm"));
    List<Path> small = Peers.objects(folder.resolve("in"), 0, 2);
    assertTrue(Files.size(large) > DISK_KIB * 1024L);
    Path out = Files.createDirectories(folder.resolve("out"));
    ListenerProcess listener = ListenerProcess.onDisk(out, DISK_KIB);
    try {
      for (int time = 0; time < 3; time++) {
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
      }
      Path seen = listener.seen(out);
      assertEquals(2, Peers.kept(seen).size());
      for (Path file : Peers.kept(seen)) {
        InstanceIdentity.of(file);
      }
      assertEquals(List.of(), Peers.unfinished(seen));
    } finally {
      listener.kill();
    }
  }
}

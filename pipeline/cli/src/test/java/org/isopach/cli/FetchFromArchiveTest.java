package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.dicom.peer.PeerProcess;
import org.isopach.dicom.peer.Ports;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code fetch} from dcmtk's archive, dcmqrscp, as a user runs it. */
class FetchFromArchiveTest {
  private static final int COUNT = 3;

  @TempDir Path folder;
  private PeerProcess archive;
  private String from;
  private int ourPort;

  @BeforeEach
  void fillAnArchive() throws Exception {
    ourPort = Ports.free();
    archive =
        PeerProcess.start(
            folder.resolve("log"),
            1,
            ports -> List.of("dcmqrscp", "-c", config(ports[0]).toString()));
    from = "ARCHIVE@" + NetworkFiles.HOST + ":" + archive.port(0);
    Path in = NetworkFiles.objects(folder.resolve("in"), COUNT);
    Call sent = Call.isopach("send", in, "--to", from, "--retries", 6);
    assertEquals(0, sent.code(), sent.err() + archive.state());
  }

  private Path config(int port) throws IOException {
    Path store = Files.createDirectories(folder.resolve("archive"));
    return Files.writeString(
        folder.resolve("config"),
        """
        NetworkTCPPort = %d
        MaxPDUSize = 16384
        MaxAssociations = 8
        HostTable BEGIN
        us = (ISOPACH, %s, %d)
        HostTable END
        VendorTable BEGIN
        VendorTable END
        AETable BEGIN
        ARCHIVE %s RW (9, 64mb) ANY
        AETable END
        """
            .formatted(port, NetworkFiles.HOST, ourPort, store));
  }

  @AfterEach
  void stop() {
    if (archive != null) {
      archive.close();
    }
  }

  @Test
  void fetchesWhatIsAskedForAndSaysWhatIsMissing() throws Exception {
    Path out = folder.resolve("out");

    Call nothing = Call.isopach("fetch", "--from", from, "--patient", "TSEU-0", "--out", out);
    Call listed = Call.isopach("fetch", "--from", from, "--patient", NetworkFiles.PATIENT);
    assertEquals(4, nothing.code(), nothing.err());
    assertTrue(nothing.out().contains("0 studies found"), nothing.out());
    assertEquals(0, listed.code(), listed.err());
    assertTrue(listed.out().contains(NetworkFiles.STUDY), listed.out());
    assertTrue(Files.notExists(out), "nothing is fetched without --out or a study");

    Path series = Files.createDirectories(out.resolve(NetworkFiles.STUDY).resolve("2.25.7104"));
    NetworkFiles.object(series.resolve("2.25.8101.dcm"), "2.25.8101", (byte) 77);
    Call some = Call.isopach("fetch", "--from", from, "--study", NetworkFiles.STUDY, "--out", out);
    assertEquals(3, some.code(), some.err());
    assertTrue(some.out().contains("2 objects fetched, 1 not (B000"), some.out());
    assertTrue(some.err().contains("refused 2.25.8101 with status 0111"), some.err());

    Files.delete(series.resolve("2.25.8101.dcm"));
    Call all =
        Call.isopach(
            "fetch",
            "--from",
            from,
            "--study",
            NetworkFiles.STUDY,
            "--out",
            out,
            "--port",
            ourPort);
    assertEquals(0, all.code(), all.err());
    assertTrue(all.out().contains(COUNT + " objects fetched, 0 not"), all.out());
    assertEquals(COUNT + 1, Folders.files(out).size(), "the objects and the lock");

    Path file = Files.writeString(folder.resolve("file"), "x");
    Call below =
        Call.isopach(
            "fetch", "--from", from, "--study", NetworkFiles.STUDY, "--out", file.resolve("out"));
    assertEquals(1, below.code(), below.err());
  }
}

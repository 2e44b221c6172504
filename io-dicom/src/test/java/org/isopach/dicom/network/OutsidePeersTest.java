package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.peer.PeerProcess;
import org.isopach.dicom.read.InstanceIdentity;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Both ways with the programs of dcmtk. */
class OutsidePeersTest {
  @TempDir Path folder;

  @Test
  void answersTheEchoOfAnother() throws IOException {
    Peers.need("echoscu");
    try (StorageListener listener = listener()) {
      ToolRun right = echo(listener, Peers.AET);
      ToolRun wrong = echo(listener, "OTHER");

      assertEquals(0, right.exit(), right.output());
      assertTrue(wrong.exit() != 0, "a wrong title must be rejected");
      assertTrue(wrong.output().contains("Called AE Title Not Recognized"), wrong.output());
    }
  }

  @Test
  void keepsWhatAnotherSends() throws Exception {
    Peers.need("storescu");
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 5);
    try (StorageListener listener = listener()) {
      for (int time = 0; time < 2; time++) {
        ToolRun run = ToolRun.of(storescu(listener.port(), files));
        assertEquals(0, run.exit(), run.output());
      }
    }

    List<Path> kept = Peers.kept(folder.resolve("out"));
    assertEquals(files.size(), kept.size());
    for (int i = 0; i < files.size(); i++) {
      assertEquals(Peers.uid(i) + ".dcm", kept.get(i).getFileName().toString());
      ParsedObject before = ParsedObject.of(files.get(i), new PixelMedObjectReader());
      ParsedObject after = ParsedObject.of(kept.get(i), new PixelMedObjectReader());
      assertEquals(before.attributes(), after.attributes());
      assertEquals(before.pixels().orElseThrow().length(), after.pixels().orElseThrow().length());
    }
  }

  @Test
  void sendsToAnotherAndDoesNotSendTwice() throws Exception {
    Peers.need("storescp");
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 5);
    Path out = Files.createDirectories(folder.resolve("scp"));
    List<String> call = List.of("storescp", "-aet", Peers.AET, "+B", "-od", out.toString());
    try (PeerProcess scp = PeerProcess.start(folder.resolve("log"), call)) {
      int port = scp.port(0);
      Optional<Path> journal = Optional.of(folder.resolve("journal"));
      HeardEvents events = new HeardEvents();
      SendResult first = StorageSender.send(Peers.to(port), files.subList(0, 3), journal, events);
      SendResult second = StorageSender.send(Peers.to(port), files, journal, events);

      assertEquals(new SendResult(3, 0, 0, List.of()), first, events + scp.state());
      assertEquals(new SendResult(2, 3, 0, List.of()), second, events + scp.state());
    }
    try (var received = Files.list(out)) {
      List<Path> there = received.sorted().toList();
      assertEquals(files.size(), there.size());
      for (int i = 0; i < files.size(); i++) {
        assertEquals(
            bytesOf(files.get(i)), bytesOf(there.get(i)), "the data set of " + files.get(i));
      }
    }
  }

  private StorageListener listener() throws IOException {
    return StorageListener.start(
        ListenerSettings.usual(0, Peers.AET, folder.resolve("out")), new HeardEvents());
  }

  private static ToolRun echo(StorageListener listener, String aet) {
    return ToolRun.of("echoscu", "-aec", aet, Peers.HOST, "" + listener.port());
  }

  static String[] storescu(int port, List<Path> files) {
    List<String> command =
        new ArrayList<>(List.of("storescu", "-R", "-aec", Peers.AET, Peers.HOST, "" + port));
    files.forEach(file -> command.add(file.toString()));
    return command.toArray(String[]::new);
  }

  /** Returns the encoded data set, as text of one character for each byte. */
  private static String bytesOf(Path file) throws Exception {
    byte[] all = Files.readAllBytes(file);
    int start = (int) InstanceIdentity.of(file).datasetStart();
    return Arrays.toString(Arrays.copyOfRange(all, start, all.length));
  }
}

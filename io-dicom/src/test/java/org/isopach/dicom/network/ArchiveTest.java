package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.peer.PeerProcess;
import org.isopach.dicom.peer.Ports;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Finding and fetching from dcmtk's archive, dcmqrscp. */
class ArchiveTest {
  private static final int COUNT = 4;

  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();
  private PeerProcess archive;
  private CallerSettings caller;
  private int ourPort;
  private String studyUid;
  private String patientId;

  @BeforeEach
  void fillAnArchive() throws Exception {
    Peers.need("dcmqrscp");
    ourPort = Ports.free();
    archive =
        PeerProcess.start(
            folder.resolve("log"),
            1,
            ports -> List.of("dcmqrscp", "-c", config(ports[0]).toString()));
    caller = Peers.to(archive.port(0));
    SendResult sent =
        StorageSender.send(
            caller, Peers.objects(folder.resolve("in"), 0, COUNT), Optional.empty(), events);
    assertEquals(COUNT, sent.sent(), events + archive.state());
    studyUid = new TomographyBuilder().build().text(Tags.STUDY_INSTANCE_UID).orElseThrow();
    patientId = new TomographyBuilder().build().text(Tags.PATIENT_ID).orElseThrow();
  }

  private Path config(int port) throws IOException {
    Path store = Files.createDirectories(folder.resolve("archive"));
    return Files.writeString(
        folder.resolve("config"),
        String.join(
            "\n",
            "NetworkTCPPort = " + port,
            "MaxPDUSize = 16384",
            "MaxAssociations = 8",
            "HostTable BEGIN",
            "us = (TERN, " + Peers.HOST + ", " + ourPort + ")",
            "HostTable END",
            "VendorTable BEGIN",
            "VendorTable END",
            "AETable BEGIN",
            Peers.AET + " " + store + " RW (9, 64mb) ANY",
            "AETable END",
            ""));
  }

  @AfterEach
  void stop() {
    if (archive != null) {
      archive.close();
    }
  }

  @Test
  void findsByPatientAndByStudy() throws IOException {
    ArchiveClient client = new ArchiveClient(caller, events);

    for (StudyQuery query :
        List.of(new StudyQuery(patientId, "", ""), new StudyQuery("", studyUid, ""))) {
      List<FoundStudy> found = client.find(query);
      assertEquals(1, found.size());
      assertEquals(studyUid, found.get(0).studyUid());
    }
    assertEquals(List.of(), client.find(new StudyQuery("nobody", "", "")));
    assertThrows(IllegalArgumentException.class, () -> new StudyQuery("*", "", ""));
    assertThrows(IllegalArgumentException.class, () -> new StudyQuery("", "", ""));
  }

  @Test
  void fetchesOverItsOwnConnection() throws IOException {
    ArchiveClient client = new ArchiveClient(caller, events);
    FoundStudy study = client.find(new StudyQuery(patientId, "", "")).get(0);
    Path out = folder.resolve("out");

    RetrieveResult result = client.get(study, out);

    assertTrue(result.whole(), result.toString() + events);
    assertEquals(COUNT, result.completed());
    assertEquals(COUNT, Peers.kept(out).size());
  }

  @Test
  void hasTheArchiveSendToAListener() throws IOException {
    ArchiveClient client = new ArchiveClient(caller, events);
    FoundStudy study = client.find(new StudyQuery(patientId, "", "")).get(0);
    Path out = folder.resolve("out");

    RetrieveResult result;
    try (StorageListener listener =
        StorageListener.start(ListenerSettings.usual(ourPort, "TERN", out), events)) {
      result = client.move(study, "TERN");
      assertEquals(COUNT, listener.size());
      RetrieveResult unknown = client.move(study, "NOBODY");
      assertEquals(0xA801, unknown.status(), "move destination unknown, PS3.4, C.4.2.1.5");
    }

    assertTrue(result.whole(), result.toString() + events);
    assertEquals(COUNT, Peers.kept(out).size());
  }
}

package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SendJournalTest {
  private static final Destination TO = new Destination("TERN", "localhost", 104);

  @TempDir Path folder;

  /** A killed program closes nothing: what was acknowledged must be in the file before that. */
  @Test
  void linesAreThereBeforeTheEnd() throws Exception {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 2);
    OutgoingFile first = OutgoingFile.of(files.get(0), true);
    Path file = folder.resolve("journal");
    try (SendJournal journal = SendJournal.open(file)) {
      journal.acknowledge(TO, first);
      journal.acknowledge(TO, first);

      assertEquals(1, Files.readAllLines(file).size());
    }
  }

  @Test
  void aLineThatWasCutOffCountsForNothing() throws Exception {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 2);
    OutgoingFile first = OutgoingFile.of(files.get(0), true);
    OutgoingFile second = OutgoingFile.of(files.get(1), true);
    Path file = folder.resolve("journal");
    try (SendJournal journal = SendJournal.open(file)) {
      journal.acknowledge(TO, first);
      journal.acknowledge(TO, second);
    }
    String whole = Files.readString(file);
    Files.writeString(file, whole.substring(0, whole.length() - 3));

    try (SendJournal journal = SendJournal.open(file)) {
      assertTrue(journal.acknowledged(TO, first));
      assertFalse(journal.acknowledged(TO, second));
      assertFalse(journal.acknowledged(new Destination("TERN", "localhost", 105), first));
      journal.acknowledge(TO, second);
    }
    assertEquals(whole, Files.readString(file));
  }
}

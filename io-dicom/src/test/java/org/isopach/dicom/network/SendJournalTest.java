package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SendJournalTest {
  private static final String TO = "TERN@localhost:104";

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
  void leavesAFileThatIsNoJournalAsItIs() throws Exception {
    for (String text : List.of("a list of objects", "one\ntwo", "a\tb\tc\n", "\u0000\u00ff\n")) {
      Path file = Files.writeString(folder.resolve("other"), text);

      assertThrows(IOException.class, () -> SendJournal.open(file));
      assertEquals(text, Files.readString(file));
    }
  }

  @Test
  void isForOneProgramAtOnce() throws Exception {
    Path file = folder.resolve("journal");
    SendJournal journal = SendJournal.open(file);
    IOException taken = assertThrows(IOException.class, () -> SendJournal.open(file));
    journal.close();

    assertTrue(taken.getMessage().contains("another program"), taken.toString());
    SendJournal.open(file).close();
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
      assertFalse(journal.acknowledged("TERN@localhost:105", first));
      journal.acknowledge(TO, second);
    }
    assertEquals(whole, Files.readString(file));
  }
}

package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SendRecordTest {
  @TempDir Path folder;

  @Test
  void eachFileIsCountedOnce() throws Exception {
    List<Path> files = Peers.objects(folder.resolve("in"), 0, 2);
    Path text = Files.writeString(folder.resolve("notes.txt"), "no object");
    Path gone = folder.resolve("gone.dcm");
    List<SentObject> acknowledged = new ArrayList<>();
    List<String> lines = new ArrayList<>();
    try (SendJournal journal = SendJournal.open(folder.resolve("journal"))) {
      journal.acknowledge("TERN@localhost:104", OutgoingFile.of(files.get(0), true));
      SendRecord record =
          new SendRecord(
              "TERN@localhost:104",
              Optional.of(journal),
              (kind, line) -> lines.add(kind + " " + line),
              acknowledged::add);

      assertTrue(record.look(files.get(0)).isEmpty());
      assertTrue(record.look(text).isEmpty());
      assertTrue(record.look(gone).isEmpty());
      record.took(record.look(files.get(1)).orElseThrow(), "B000");

      SendResult result = record.result();
      assertEquals(
          List.of(1, 1, 1), List.of(result.sent(), result.sentBefore(), result.notDicom()));
      assertEquals(gone.toString(), result.failures().get(0).file());
      assertEquals(1, result.failures().size());
      assertEquals(2, acknowledged.size());
      assertEquals(
          "REFUSED TERN@localhost:104: took " + files.get(1) + " with warning B000",
          lines.get(lines.size() - 1));
      assertTrue(record.look(files.get(1)).isEmpty(), "the journal has it now");
    }
  }
}

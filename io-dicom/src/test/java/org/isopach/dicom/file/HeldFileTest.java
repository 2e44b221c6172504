package org.isopach.dicom.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class HeldFileTest {
  @TempDir Path folder;

  @Test
  void isForOneAtATimeAndKeepsWhatIsInIt() throws IOException {
    Path file = folder.resolve("lock");
    try (FileChannel first = HeldFile.open(file, "it is held")) {
      first.write(ByteBuffer.wrap(new byte[] {'a'}));
      IOException second = assertThrows(IOException.class, () -> HeldFile.open(file, "it is held"));
      assertEquals("it is held", second.getMessage());
    }
    HeldFile.open(file, "it is held").close();

    assertEquals("a", Files.readString(file));
  }
}

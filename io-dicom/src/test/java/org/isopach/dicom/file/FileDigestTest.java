package org.isopach.dicom.file;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileDigestTest {
  @TempDir Path folder;

  /** A million times the letter a: the long example of FIPS 180-2, appendix B.3. */
  @Test
  void isThePublishedDigestOfALongFile() throws IOException {
    byte[] letters = new byte[1_000_000];
    Arrays.fill(letters, (byte) 'a');

    assertEquals(
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
        FileDigest.sha256(Files.write(folder.resolve("long"), letters)));
  }
}

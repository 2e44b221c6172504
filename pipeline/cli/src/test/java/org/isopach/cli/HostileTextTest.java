package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Names and identifiers meant to reach out of the folder, the table or the terminal. */
class HostileTextTest {
  @TempDir Path folder;

  @Test
  void staysWhereItBelongs() throws IOException {
    Path input = Files.createDirectory(folder.resolve("in"));
    Path out = Files.createDirectory(folder.resolve("out é"));
    StoredScan scan = StoredScan.of(ScanPlan.raster(new ScanSize(19, 96, 400), 3.87, 6.4, 6.4, 0));
    scan.copy()
        .with(b -> b.text(Tags.PATIENT_ID, Vr.LO, "=1+1,\"x\""))
        .write(input.resolve("a ü\nmeasured: all.dcm"), "../../../escaped", 0);
    scan.copy()
        .with(b -> b.text(Tags.PATIENT_ID, Vr.LO, "../\033[31mB"))
        .write(input.resolve("b"), "1.2.3.../.", 0);

    Call call = Call.isopach("measure", input, "--out", out, "--layer", "ILM-BM");
    Call inspect = Call.isopach("inspect", input);

    assertEquals(0, call.code(), call.err());
    try (var top = Files.list(folder)) {
      assertEquals(2, top.count(), "nothing beside input and output");
    }
    assertEquals(2, Folders.files(out.resolve("boundaries")).size());
    assertEquals(2, Folders.files(out.resolve("maps")).size());
    String table = Files.readString(out.resolve("sectors.csv"), StandardCharsets.UTF_8);
    assertTrue(table.contains("\n\"'=1+1,\"\"x\"\"\","), table);
    for (String words : new String[] {call.out(), call.err(), inspect.out()}) {
      assertFalse(words.contains("\033"), words);
      assertFalse(words.contains("\nmeasured:"), words);
    }
    assertTrue(inspect.out().contains("Patient ../\\u001b[31mB"), inspect.out());
  }
}

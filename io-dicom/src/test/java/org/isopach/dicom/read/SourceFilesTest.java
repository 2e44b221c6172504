package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The attributes held of one scan are never given as another's, nor those of another file. */
class SourceFilesTest {
  @TempDir Path folder;

  @Test
  void eachScanHasItsOwn() throws Exception {
    List<OctScan> scans = List.of(scan("2.25.71"), scan("2.25.72"));
    SourceFiles source = new SourceFiles(new PixelMedObjectReader());

    for (int i : new int[] {0, 0, 1, 0}) {
      assertEquals(
          scans.get(i).identity().sopUid(),
          source.header(scans.get(i)).text(Tags.SOP_INSTANCE_UID).orElseThrow());
    }
  }

  @Test
  void aFileThatChangedIsRefused() throws Exception {
    OctScan scan = scan("2.25.71");
    OctScan other = scan("2.25.72");
    SourceFiles source = new SourceFiles(new PixelMedObjectReader());
    source.header(other);
    Path file = Path.of(scan.document().location());
    Files.write(file, new byte[] {0}, StandardOpenOption.APPEND);

    IOException refused = assertThrows(IOException.class, () -> source.header(scan));
    assertEquals(file + " has changed since it was first read", refused.getMessage());
  }

  private OctScan scan(String uid) throws IOException {
    Path file = folder.resolve(uid);
    new TomographyBuilder()
        .with(object -> object.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid))
        .write(file);
    return DicomFolder.reader().read(List.of(file)).scans().get(0);
  }
}

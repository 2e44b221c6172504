package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.nio.file.Path;
import org.isopach.analysis.layer.Layer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RunFolderTest {
  private static final RunFolder FOLDER = new RunFolder(Path.of("run"));

  @Test
  void namesFilesByObjectAndLayer() {
    assertEquals(Path.of("run/boundaries/2.25.7.csv"), FOLDER.boundaries("2.25.7"));
    assertEquals(Path.of("run/maps/2.25.7_ILM-BM.png"), FOLDER.map("2.25.7", Layer.ILM_BM));
    assertEquals(Path.of("run/registration/2.25.7.dcm"), FOLDER.registration("2.25.7"));
    assertEquals("maps/2.25.7_ILM-BM.png", FOLDER.name(FOLDER.map("2.25.7", Layer.ILM_BM)));
  }

  @ParameterizedTest
  @ValueSource(strings = {"../../etc/passwd", "/etc/passwd", "..", "", "a\u0000b", "1.2/../../3"})
  void neverLeadsOutOfTheFolder(String hostile) {
    Path file = FOLDER.boundaries(hostile);

    assertEquals(Path.of("run/boundaries"), file.normalize().getParent());
  }

  @Test
  void keepsOddNamesApart() {
    assertNotEquals(FOLDER.boundaries("a/b"), FOLDER.boundaries("a.b"));
  }
}

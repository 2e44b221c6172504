package org.isopach.dicom.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.isopach.dicom.data.Code;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class IodTablesTest {
  private static final IodTables TABLES = IodTables.standard();

  @Test
  void knowsTheObjectsOfTheProject() {
    assertEquals(
        "Ophthalmic Thickness Map", TABLES.iod("1.2.840.10008.5.1.4.1.1.81.1").get().name());
    assertEquals(
        10, TABLES.iod("1.2.840.10008.5.1.4.1.1.77.1.5.4").get().functionalGroups().size());
    assertTrue(TABLES.iod("1.2.840.10008.5.1.4.1.1.2").isEmpty());
  }

  /** CID 4262 has five codes (PS3.16, group version 20110825). */
  @Test
  void contextGroupsAreComplete() {
    List<Code> definitions = TABLES.contextGroup("4262").get();
    assertEquals(5, definitions.size());
    assertEquals("Total retinal thickness (ILM to BM)", definitions.get(4).meaning());
    assertTrue(TABLES.contextGroup("7202").isEmpty());
  }

  @Test
  void everyConditionalAttributeSaysItsCondition() {
    for (ModuleTable module : TABLES.modules().values()) {
      conditions(module.attributes());
    }
  }

  private static void conditions(List<AttributeRule> rules) {
    for (AttributeRule rule : rules) {
      if (rule.type().conditional()) {
        assertFalse(rule.requirement().text().isBlank(), rule.name());
      }
      conditions(rule.children());
    }
  }

  @ParameterizedTest
  @CsvSource({
    "1, 1, true",
    "1, 2, false",
    "1-n, 17, true",
    "1-n, 0, false",
    "2-2n, 4, true",
    "2-2n, 3, false",
    "1-3, 3, true",
    "1-3, 4, false",
    "0-n, 0, true",
  })
  void multiplicitiesAreRead(String text, int count, boolean allowed) {
    assertEquals(allowed, Multiplicity.parse(text).allows(count));
    assertEquals(text, Multiplicity.parse(text).toString());
  }

  @Test
  void anUnknownTypeIsAnError() {
    assertThrows(IllegalArgumentException.class, () -> AttributeType.ofCode("4"));
  }
}

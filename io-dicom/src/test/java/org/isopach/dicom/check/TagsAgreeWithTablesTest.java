package org.isopach.dicom.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Field;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.isopach.dicom.data.Tags;
import org.junit.jupiter.api.Test;

class TagsAgreeWithTablesTest {
  @Test
  void constantsCarryTheNamesOfTheTables() throws Exception {
    Map<Integer, String> names = new TreeMap<>();
    IodTables.standard().modules().values().forEach(m -> collect(m.attributes(), names));
    int compared = 0;
    for (Field field : Tags.class.getFields()) {
      String name = names.get(field.getInt(null));
      if (name != null) {
        String letters = name.replace("'s", "").replaceAll("[^A-Za-z0-9]", "");
        String expected = letters.toUpperCase(Locale.ROOT);
        assertEquals(expected, field.getName().replace("_", ""));
        compared++;
      }
    }
    assertTrue(compared > 200, "compared only " + compared);
  }

  private static void collect(List<AttributeRule> rules, Map<Integer, String> names) {
    for (AttributeRule rule : rules) {
      names.put(rule.tag(), rule.name());
      collect(rule.children(), names);
    }
  }
}

package org.isopach.dicom.toolkit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pixelmed.dicom.AttributeTag;
import com.pixelmed.dicom.DicomDictionary;
import java.lang.reflect.Field;
import java.util.Locale;
import org.isopach.dicom.data.Tags;
import org.junit.jupiter.api.Test;

/** The outside source is the data dictionary that comes with the PixelMed toolkit (2022). */
class TagsAgreeWithDictionaryTest {
  @Test
  void everyConstantIsTheKeywordOfItsTag() throws Exception {
    int compared = 0;
    for (Field field : Tags.class.getFields()) {
      int tag = field.getInt(null);
      String keyword =
          DicomDictionary.StandardDictionary.getNameFromTag(
              new AttributeTag(tag >>> 16, tag & 0xffff));
      String expected = field.getName().replace("_", "");
      assertEquals(
          expected,
          String.valueOf(keyword).toUpperCase(Locale.ROOT),
          () -> String.format("%s = %08X", field.getName(), tag));
      compared++;
    }
    assertTrue(compared > 250, "compared only " + compared);
  }
}

package org.isopach.dicom.check;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.junit.jupiter.api.Test;

class ConditionTest {
  private static final Code SCANNER = new Code("392012008", "SCT", "any wording");
  private static final Dataset ITEM =
      Dataset.builder()
          .text(Tags.VALUE_TYPE, Vr.CS, "CODE")
          .text(Tags.CODE_MEANING, Vr.LO, "Möwe")
          .build();
  private static final Dataset OUTER =
      Dataset.builder()
          .text(Tags.IMAGE_TYPE, Vr.CS, "DERIVED", "PRIMARY", "RETINAL_THICK")
          .text(Tags.SERIES_NUMBER, Vr.IS)
          .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 3)
          .items(Tags.QUANTITY_DEFINITION_SEQUENCE, ITEM)
          .items(Tags.ACQUISITION_DEVICE_TYPE_CODE_SEQUENCE, SCANNER.toItem())
          .build();
  private static final Scope TOP = Scope.top(OUTER, PixelContent.ofBytes(4));
  private static final Scope INSIDE = TOP.inside(ITEM);

  private static void holds(boolean expected, Condition condition, Scope scope) {
    assertEquals(Truth.of(expected), condition.evaluate(scope));
  }

  @Test
  void presenceIsLookedForFromTheItemOutwards() {
    holds(true, new Condition.Present(Tags.VALUE_TYPE), INSIDE);
    holds(true, new Condition.Present(Tags.IMAGE_TYPE), INSIDE);
    holds(false, new Condition.Present(Tags.VALUE_TYPE), TOP);
    holds(true, new Condition.Present(Tags.PIXEL_DATA), INSIDE);
    holds(false, new Condition.Present(Tags.PIXEL_DATA), Scope.top(OUTER, PixelContent.none()));
    holds(true, new Condition.Anywhere(Tags.VALUE_TYPE), TOP);
    holds(false, new Condition.Anywhere(Tags.STACK_ID), INSIDE);
  }

  @Test
  void valuesAreComparedAtTheirPosition() {
    List<String> retinal = List.of("RETINAL_THICK");
    holds(true, new Condition.ValueIs(Tags.IMAGE_TYPE, 3, retinal), INSIDE);
    holds(false, new Condition.ValueIs(Tags.IMAGE_TYPE, 1, retinal), TOP);
    holds(false, new Condition.ValueIs(Tags.IMAGE_TYPE, 4, retinal), TOP);
    holds(false, new Condition.ValueIs(Tags.STACK_ID, 1, retinal), TOP);
    holds(true, new Condition.Above(Tags.SAMPLES_PER_PIXEL, 1), TOP);
    holds(false, new Condition.Above(Tags.SAMPLES_PER_PIXEL, 3), TOP);
    holds(true, new Condition.Empty(Tags.SERIES_NUMBER), TOP);
    holds(true, new Condition.Empty(Tags.STACK_ID), TOP);
    holds(false, new Condition.Empty(Tags.IMAGE_TYPE), TOP);
  }

  @Test
  void codesAreComparedWithoutTheirMeaning() {
    int tag = Tags.ACQUISITION_DEVICE_TYPE_CODE_SEQUENCE;
    holds(true, new Condition.HasCode(tag, List.of(new Code("392012008", "SCT", ""))), TOP);
    holds(false, new Condition.HasCode(tag, List.of(new Code("392012008", "DCM", ""))), TOP);
    holds(false, new Condition.HasCode(Tags.STACK_ID, List.of(SCANNER)), TOP);
  }

  @Test
  void nonAsciiTextIsFoundAtAnyDepth() {
    holds(true, new Condition.NonAscii(), INSIDE);
    holds(false, new Condition.NonAscii(), Scope.top(SCANNER.toItem(), PixelContent.none()));
  }

  @Test
  void unknownStaysUnknownUnlessItCannotMatter() {
    Condition unknown = new Condition.Unknown("x");
    Condition yes = new Condition.Present(Tags.IMAGE_TYPE);
    Condition no = new Condition.Not(yes);
    assertEquals(Truth.UNKNOWN, new Condition.Not(unknown).evaluate(TOP));
    assertEquals(Truth.UNKNOWN, new Condition.All(List.of(yes, unknown)).evaluate(TOP));
    assertEquals(Truth.FALSE, new Condition.All(List.of(unknown, no)).evaluate(TOP));
    assertEquals(Truth.TRUE, new Condition.Any(List.of(unknown, yes)).evaluate(TOP));
    assertEquals(Truth.UNKNOWN, new Condition.Any(List.of(no, unknown)).evaluate(TOP));
  }
}

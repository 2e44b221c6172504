package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.ChangeCode;
import org.junit.jupiter.api.Test;

/** What a Quantity Definition Sequence says that a map is of; codes of CID 4262 and our own. */
class MapQuantityTest {
  private static final Code QUANTITY = new Code("246205007", "SCT", "Quantity");
  private static final Code RPE = new Code("111928", "DCM", "Total retinal thickness (ILM to RPE)");

  private static Dataset item(Code name, Code value) {
    return Dataset.builder()
        .items(Tags.CONCEPT_NAME_CODE_SEQUENCE, name.toItem())
        .items(Tags.CONCEPT_CODE_SEQUENCE, value.toItem())
        .build();
  }

  private static MapQuantity of(Dataset... items) {
    return MapQuantity.of(
        Dataset.builder().items(Tags.QUANTITY_DEFINITION_SEQUENCE, Arrays.asList(items)).build());
  }

  @Test
  void aThicknessIsOfItsLayer() {
    MapQuantity thickness = of(item(QUANTITY, RPE));
    assertEquals(Optional.of(Layer.ILM_RPE), thickness.layer());
    assertFalse(thickness.change());
  }

  @Test
  void aChangeIsOfTheThicknessThatChanged() {
    MapQuantity change = of(item(QUANTITY, ChangeCode.CHANGE), item(ChangeCode.DEFINITION, RPE));
    assertEquals(Optional.of(Layer.ILM_RPE), change.layer());
    assertTrue(change.change());
  }

  /** How something was measured is not what was measured: it may be a change or a deviation. */
  @Test
  void aMethodAloneIsNoThickness() {
    MapQuantity unknown = of(item(ChangeCode.DEFINITION, RPE));
    assertEquals(Optional.empty(), unknown.layer());
    assertEquals(Optional.empty(), unknown.code());
    assertEquals(List.of(RPE.toString()), unknown.further());
  }
}

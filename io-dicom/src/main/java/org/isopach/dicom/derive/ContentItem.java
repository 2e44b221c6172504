package org.isopach.dicom.derive;

import java.util.List;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/** Content items of structured reports (DICOM PS3.3, C.17.3). */
final class ContentItem {
  static final String CONTAINS = "CONTAINS";
  static final String OBSERVATION_CONTEXT = "HAS OBS CONTEXT";
  static final String CONCEPT_MODIFIER = "HAS CONCEPT MOD";
  static final String INFERRED_FROM = "INFERRED FROM";

  private ContentItem() {}

  /** Returns a container whose children stand on their own. */
  static Dataset container(String relationship, Code name, List<Dataset> children) {
    return start(relationship, "CONTAINER", name)
        .text(Tags.CONTINUITY_OF_CONTENT, Vr.CS, "SEPARATE")
        .items(Tags.CONTENT_SEQUENCE, children)
        .build();
  }

  static Dataset text(String relationship, Code name, String value) {
    return start(relationship, "TEXT", name).text(Tags.TEXT_VALUE, Vr.UT, value).build();
  }

  static Dataset code(String relationship, Code name, Code value, Dataset... children) {
    return parent(
        start(relationship, "CODE", name).items(Tags.CONCEPT_CODE_SEQUENCE, value.toItem()),
        children);
  }

  static Dataset uid(String relationship, Code name, String value) {
    return start(relationship, "UIDREF", name).text(Tags.UID, Vr.UI, value).build();
  }

  /** Returns a number with its unit; the value stands as given. */
  static Dataset number(
      String relationship, Code name, String value, Code unit, Dataset... children) {
    Dataset measured =
        Dataset.builder()
            .text(Tags.NUMERIC_VALUE, Vr.DS, value)
            .items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, unit.toItem())
            .build();
    return parent(
        start(relationship, "NUM", name).items(Tags.MEASURED_VALUE_SEQUENCE, measured), children);
  }

  /** Returns a number that could not be had, with the kind of reason. */
  static Dataset noNumber(String relationship, Code name, Code qualifier, Dataset... children) {
    return parent(
        start(relationship, "NUM", name)
            .items(Tags.MEASURED_VALUE_SEQUENCE)
            .items(Tags.NUMERIC_VALUE_QUALIFIER_CODE_SEQUENCE, qualifier.toItem()),
        children);
  }

  /** Returns a reference to a whole image. */
  static Dataset image(String relationship, InstanceReference image) {
    return Dataset.builder()
        .text(Tags.RELATIONSHIP_TYPE, Vr.CS, relationship)
        .text(Tags.VALUE_TYPE, Vr.CS, "IMAGE")
        .items(Tags.REFERENCED_SOP_SEQUENCE, image.toItem().build())
        .build();
  }

  private static Dataset.Builder start(String relationship, String type, Code name) {
    return Dataset.builder()
        .text(Tags.RELATIONSHIP_TYPE, Vr.CS, relationship)
        .text(Tags.VALUE_TYPE, Vr.CS, type)
        .items(Tags.CONCEPT_NAME_CODE_SEQUENCE, name.toItem());
  }

  private static Dataset parent(Dataset.Builder item, Dataset... children) {
    return children.length == 0
        ? item.build()
        : item.items(Tags.CONTENT_SEQUENCE, children).build();
  }
}

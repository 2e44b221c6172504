package org.isopach.dicom.check;

import java.util.Arrays;

/** The types of attributes, DICOM PS3.5, 7.4. */
enum AttributeType {
  ONE("1"),
  ONE_C("1C"),
  TWO("2"),
  TWO_C("2C"),
  THREE("3");

  private final String code;

  AttributeType(String code) {
    this.code = code;
  }

  static AttributeType ofCode(String code) {
    return Arrays.stream(values())
        .filter(t -> t.code.equals(code))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no attribute type " + code));
  }

  String code() {
    return code;
  }

  boolean conditional() {
    return this == ONE_C || this == TWO_C;
  }

  boolean needsValue() {
    return this == ONE || this == ONE_C;
  }
}

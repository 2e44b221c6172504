package org.isopach.dicom.check;

import java.util.List;

/**
 * A module or functional group macro.
 *
 * @param name its name in the standard
 * @param partial whether our table leaves out type 3 attributes and items of sequences
 * @param attributes its attributes, in the table's order
 */
record ModuleTable(String name, boolean partial, List<AttributeRule> attributes) {
  ModuleTable {
    attributes = List.copyOf(attributes);
  }
}

package org.isopach.dicom.check;

import java.util.List;

/**
 * An object definition of DICOM PS3.3.
 *
 * @param name its name
 * @param sopClassUid the storage class built on it
 * @param modules the modules in order
 * @param functionalGroups the functional group macros; none when it has none
 */
record IodTable(
    String name, String sopClassUid, List<ModuleUse> modules, List<ModuleUse> functionalGroups) {
  IodTable {
    modules = List.copyOf(modules);
    functionalGroups = List.copyOf(functionalGroups);
  }
}

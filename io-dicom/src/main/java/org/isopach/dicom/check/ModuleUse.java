package org.isopach.dicom.check;

import java.util.Optional;

/**
 * A module's place in an object definition.
 *
 * @param key the module's name in our tables
 * @param module its table; empty when we have none
 * @param usage how strongly it is asked for
 * @param requirement when a conditional module is asked for
 */
record ModuleUse(
    String key, Optional<ModuleTable> module, Usage usage, AttributeRule.Requirement requirement) {
  /** How strongly a module is asked for. */
  enum Usage {
    M,
    C,
    U
  }
}

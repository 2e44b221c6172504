package org.isopach.segment;

import org.isopach.segment.tissue.TissueModel;

/**
 * What was learnt from phantom eyes for one part of the fundus.
 *
 * @param model tells tissues apart
 * @param confidence says how sure a depth is
 */
record Learnt(TissueModel model, ConfidenceScale confidence) {
  /** Returns what was learnt for the macula. */
  static Learnt macula() {
    return new Learnt(TissueModel.shipped(), ConfidenceScale.shipped());
  }

  /** Returns what was learnt for the optic nerve and the retina around it. */
  static Learnt nerve() {
    return new Learnt(TissueModel.nerve(), ConfidenceScale.nerve());
  }
}

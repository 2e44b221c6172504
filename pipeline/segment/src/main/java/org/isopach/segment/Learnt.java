package org.isopach.segment;

import org.isopach.segment.tissue.TissueModel;

/**
 * What one part of the fundus is searched with.
 *
 * @param model tells tissues apart
 * @param confidence says how sure a depth is
 * @param rules how far paths may move
 */
record Learnt(TissueModel model, ConfidenceScale confidence, SearchRules rules) {
  /** Returns what the macula is searched with. */
  static Learnt macula() {
    return new Learnt(TissueModel.shipped(), ConfidenceScale.shipped(), SearchRules.MACULA);
  }

  /** Returns what the optic nerve and the retina around it are searched with. */
  static Learnt nerve() {
    return new Learnt(TissueModel.nerve(), ConfidenceScale.nerve(), SearchRules.NERVE);
  }
}

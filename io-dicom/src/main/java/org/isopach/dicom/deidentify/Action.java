package org.isopach.dicom.deidentify;

/** What was done with an attribute. */
public enum Action {
  REMOVED,
  EMPTIED,
  REPLACED,
  PSEUDONYM,
  NEW_UID,
  DATE_SHIFTED,
  KEPT,
  SCRUBBED,
  CLEANED,
}

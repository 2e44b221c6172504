package org.isopach.dicom.network;

/**
 * Hears what happens on the network, from several threads at once. Lines hold titles, addresses and
 * UIDs, never a patient's name or number.
 */
@FunctionalInterface
public interface NetworkEvents {
  /** What a line is about. */
  enum Kind {
    /** Something was done as asked. */
    DONE,
    /** Something was refused or broke; the service goes on. */
    REFUSED
  }

  /** Takes one line. */
  void event(Kind kind, String line);
}

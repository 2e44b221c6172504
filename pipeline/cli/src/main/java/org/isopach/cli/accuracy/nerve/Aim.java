package org.isopach.cli.accuracy.nerve;

/** How near a scan is laid to the one of the visit before. */
enum Aim {
  TRACKED(
      "laid on the first scan's place by the instrument: shift 0.02 mm (SD) along each axis, same"
          + " turn"),
  FREE("aimed anew by hand: 0.1 mm (SD) off the disc along each axis, the head held otherwise");

  private final String words;

  Aim(String words) {
    this.words = words;
  }

  String words() {
    return words;
  }
}

package org.isopach.cli.accuracy.nerve;

/** Parts of the study of the nerve. */
public enum NervePart {
  CIRCLES,
  VOLUMES,
  ANGLE,
  WEDGE,
  TREND,
  NORMAL
}

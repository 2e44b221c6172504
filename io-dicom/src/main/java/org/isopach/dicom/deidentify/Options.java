package org.isopach.dicom.deidentify;

/**
 * The options of PS3.15, E.3 that are offered.
 *
 * @param shiftDates dates moved by one number of days for each patient (113107); else taken out
 * @param keepDevice device identity is retained (113109)
 * @param keepCharacteristics sex, age, size, weight and the like are retained (113108)
 */
public record Options(boolean shiftDates, boolean keepDevice, boolean keepCharacteristics) {}

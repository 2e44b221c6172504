package org.isopach.dicom.check;

/**
 * One thing the checker could not judge.
 *
 * @param path where
 * @param reason why, with the standard's condition where there is one
 */
public record Unchecked(String path, String reason) {}

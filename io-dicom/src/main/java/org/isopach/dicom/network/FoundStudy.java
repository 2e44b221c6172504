package org.isopach.dicom.network;

/**
 * A study an archive has.
 *
 * @param studyUid its Study Instance UID, sound
 * @param date its Study Date as the archive says it; may be empty, as may be the others
 * @param modalities what kinds of series it has, with backslashes between
 * @param instances how many objects, as text
 */
public record FoundStudy(String studyUid, String date, String modalities, String instances) {}

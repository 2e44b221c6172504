package org.isopach.dicom.read;

import java.nio.file.Path;

/**
 * An object of a kind that is read, recognised but not yet parsed.
 *
 * @param path its file
 * @param kind what it is
 * @param sopUid its SOP instance UID, empty when not stated
 */
record FoundObject(Path path, SopKind kind, String sopUid) {}

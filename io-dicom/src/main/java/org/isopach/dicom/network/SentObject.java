package org.isopach.dicom.network;

/**
 * An object that a peer acknowledged.
 *
 * @param file where it is
 * @param sopClass its SOP Class UID
 * @param sopInstance its SOP Instance UID
 */
public record SentObject(String file, String sopClass, String sopInstance) {
  InstanceName name() {
    return new InstanceName(sopClass, sopInstance);
  }
}

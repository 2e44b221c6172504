package org.isopach.dicom.network;

/** An object as a reference names it: the UIDs of its SOP class and instance. */
record InstanceName(String sopClass, String sopInstance) {
  /** Returns whether both are UIDs. */
  boolean sound() {
    return Uids.sound(sopClass) && Uids.sound(sopInstance);
  }
}

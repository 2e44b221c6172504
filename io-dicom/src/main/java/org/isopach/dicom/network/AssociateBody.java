package org.isopach.dicom.network;

import java.util.List;

/**
 * What an A-ASSOCIATE-RQ or -AC says (PS3.8, 9.3.2 and 9.3.3).
 *
 * @param calledAet the title of who is asked, without padding
 * @param callingAet the title of who asks
 * @param contexts proposals or answers
 * @param largestPdu the longest P-DATA its sender takes; 0 for no limit
 * @param storageRoles SOP classes for which the asking side will be the one that stores (PS3.7,
 *     D.3.3.4); needed by C-GET alone
 */
record AssociateBody(
    String calledAet,
    String callingAet,
    List<PresentationContext> contexts,
    long largestPdu,
    List<String> storageRoles) {
  AssociateBody {
    contexts = List.copyOf(contexts);
    storageRoles = List.copyOf(storageRoles);
  }
}

package org.isopach.dicom.network;

import java.util.List;

/**
 * What may be sent, and how (PS3.8, 9.3.2.2 and 9.3.3.2).
 *
 * @param id odd, 1 to 255
 * @param abstractSyntax a SOP class UID; empty in an answer
 * @param transferSyntaxes those proposed, or the one accepted
 * @param result 0 accepted, 3 abstract syntax, 4 transfer syntaxes not supported; 0 in a proposal
 */
record PresentationContext(
    int id, String abstractSyntax, List<String> transferSyntaxes, int result) {
  static final int ACCEPTED = 0;
  static final int ABSTRACT_SYNTAX_UNKNOWN = 3;
  static final int TRANSFER_SYNTAXES_UNKNOWN = 4;

  PresentationContext {
    transferSyntaxes = List.copyOf(transferSyntaxes);
  }

  boolean accepted() {
    return result == ACCEPTED;
  }

  String transferSyntax() {
    return transferSyntaxes.get(0);
  }
}

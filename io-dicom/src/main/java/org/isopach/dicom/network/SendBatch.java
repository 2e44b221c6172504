package org.isopach.dicom.network;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** The presentation contexts of files: one for every SOP class and encoding among them. */
final class SendBatch {
  private static final int MOST_CONTEXTS = 128;

  private SendBatch() {}

  private record Need(String sopClass, String transferSyntax) {}

  private static Set<Need> needs(List<OutgoingFile> files) {
    Set<Need> needs = new LinkedHashSet<>();
    for (OutgoingFile file : files) {
      needs.add(new Need(file.identity().sopClassUid(), file.identity().transferSyntaxUid()));
    }
    return needs;
  }

  /** Returns whether one association has no room for more kinds. */
  static boolean full(List<OutgoingFile> files) {
    return needs(files).size() == MOST_CONTEXTS;
  }

  static List<PresentationContext> proposals(List<OutgoingFile> files) {
    List<PresentationContext> proposals = new ArrayList<>();
    for (Need need : needs(files)) {
      proposals.add(
          new PresentationContext(
              2 * proposals.size() + 1, need.sopClass(), List.of(need.transferSyntax()), 0));
    }
    return proposals;
  }
}

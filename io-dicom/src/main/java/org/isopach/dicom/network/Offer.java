package org.isopach.dicom.network;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.TransferSyntax;

/** Which proposals are accepted, in syntaxes that can be read; verification always. */
enum Offer {
  /** Objects are kept, and what is kept is told to who asks (storage commitment as provider). */
  STORAGE,
  /** Reports of storage commitment are heard; who calls is their provider. */
  REPORTS;

  private static final List<TransferSyntax> PLAIN =
      List.of(
          TransferSyntax.IMPLICIT_LITTLE,
          TransferSyntax.EXPLICIT_LITTLE,
          TransferSyntax.EXPLICIT_BIG);

  /** Returns the answers to proposals, with their abstract syntaxes kept. */
  List<PresentationContext> answer(List<PresentationContext> proposed) {
    List<PresentationContext> answers = new ArrayList<>();
    for (PresentationContext one : proposed) {
      String sopClass = one.abstractSyntax();
      boolean commitment = sopClass.equals(Uids.COMMITMENT);
      boolean plain = commitment || sopClass.equals(Uids.VERIFICATION);
      if (!plain && !(this == STORAGE && Uids.storage(sopClass))) {
        answers.add(refused(one, PresentationContext.ABSTRACT_SYNTAX_UNKNOWN));
        continue;
      }
      Optional<TransferSyntax> chosen = choose(one.transferSyntaxes(), plain, commitment);
      answers.add(
          chosen.isEmpty()
              ? refused(one, PresentationContext.TRANSFER_SYNTAXES_UNKNOWN)
              : new PresentationContext(
                  one.id(),
                  one.abstractSyntax(),
                  List.of(chosen.get().uid()),
                  PresentationContext.ACCEPTED));
    }
    return answers;
  }

  /**
   * Returns the roles of provider that are granted to who asks (PS3.7, D.3.3.4): here for reports
   * of commitment, which go from provider to user.
   */
  List<String> roles(List<String> asked) {
    return this == REPORTS && asked.contains(Uids.COMMITMENT)
        ? List.of(Uids.COMMITMENT)
        : List.of();
  }

  private static PresentationContext refused(PresentationContext one, int result) {
    String any = TransferSyntax.IMPLICIT_LITTLE.uid();
    return new PresentationContext(one.id(), one.abstractSyntax(), List.of(any), result);
  }

  /** The first that the peer names and we read; big endian and implicit only where nothing else. */
  private static Optional<TransferSyntax> choose(
      List<String> offered, boolean plain, boolean littleOnly) {
    List<TransferSyntax> readable =
        offered.stream()
            .map(TransferSyntax::ofUid)
            .flatMap(Optional::stream)
            .filter(one -> !plain || PLAIN.contains(one))
            .filter(one -> !littleOnly || one != TransferSyntax.EXPLICIT_BIG)
            .toList();
    return readable.stream()
        .filter(one -> one != TransferSyntax.EXPLICIT_BIG && one != TransferSyntax.IMPLICIT_LITTLE)
        .findFirst()
        .or(() -> readable.stream().filter(one -> one != TransferSyntax.EXPLICIT_BIG).findFirst())
        .or(() -> readable.stream().findFirst());
  }
}

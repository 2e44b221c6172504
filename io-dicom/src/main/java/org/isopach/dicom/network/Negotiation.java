package org.isopach.dicom.network;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.TransferSyntax;

/** Which proposals a listener accepts: storage and verification, in syntaxes that can be read. */
final class Negotiation {
  private static final List<TransferSyntax> VERIFICATION_SYNTAXES =
      List.of(
          TransferSyntax.IMPLICIT_LITTLE,
          TransferSyntax.EXPLICIT_LITTLE,
          TransferSyntax.EXPLICIT_BIG);

  private Negotiation() {}

  /** Returns the answers to proposals, with their abstract syntaxes kept. */
  static List<PresentationContext> answer(List<PresentationContext> proposed) {
    List<PresentationContext> answers = new ArrayList<>();
    for (PresentationContext one : proposed) {
      boolean verification = one.abstractSyntax().equals(Uids.VERIFICATION);
      if (!verification && !Uids.storage(one.abstractSyntax())) {
        answers.add(refused(one, PresentationContext.ABSTRACT_SYNTAX_UNKNOWN));
        continue;
      }
      Optional<TransferSyntax> chosen = choose(one.transferSyntaxes(), verification);
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

  private static PresentationContext refused(PresentationContext one, int result) {
    String any = TransferSyntax.IMPLICIT_LITTLE.uid();
    return new PresentationContext(one.id(), one.abstractSyntax(), List.of(any), result);
  }

  /** The first that the peer names and we read; big endian and implicit only where nothing else. */
  private static Optional<TransferSyntax> choose(List<String> offered, boolean verification) {
    List<TransferSyntax> readable =
        offered.stream()
            .map(TransferSyntax::ofUid)
            .flatMap(Optional::stream)
            .filter(one -> !verification || VERIFICATION_SYNTAXES.contains(one))
            .toList();
    return readable.stream()
        .filter(one -> one != TransferSyntax.EXPLICIT_BIG && one != TransferSyntax.IMPLICIT_LITTLE)
        .findFirst()
        .or(() -> readable.stream().filter(one -> one != TransferSyntax.EXPLICIT_BIG).findFirst())
        .or(() -> readable.stream().findFirst());
  }
}

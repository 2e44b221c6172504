package org.isopach.dicom.network;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/** Transactions whose reports are waited for, whichever way they come. Thread-safe. */
final class AwaitedReports {
  private static final int UNKNOWN_TRANSACTION = 0x0115;
  private static final String NO_REPORT = "no report came in time";

  private final Map<String, List<InstanceName>> open = new LinkedHashMap<>();
  private final Map<InstanceName, String> reasons = new HashMap<>();
  private final Set<InstanceName> committed = new HashSet<>();

  /** Awaits a report; must come before the request. */
  synchronized void expect(String transaction, List<InstanceName> names) {
    open.put(transaction, names);
    names.forEach(name -> reasons.put(name, NO_REPORT));
  }

  /** Returns the requests for all that is due. */
  synchronized List<Commitment> requests() {
    return open.entrySet().stream()
        .map(one -> new Commitment(one.getKey(), one.getValue(), List.of()))
        .toList();
  }

  /** Gives a transaction up. */
  synchronized void giveUp(String transaction, String why) {
    List<InstanceName> names = open.remove(transaction);
    if (names != null) {
      names.forEach(name -> reasons.put(name, why));
    }
    notifyAll();
  }

  /** Gives up all that is due. */
  synchronized void giveUpAll(String why) {
    List.copyOf(open.keySet()).forEach(transaction -> giveUp(transaction, why));
  }

  /** Takes a report; returns the status to answer with. */
  synchronized int hear(Commitment report) {
    List<InstanceName> names = open.remove(report.transaction());
    if (names == null) {
      return UNKNOWN_TRANSACTION;
    }
    Set<InstanceName> kept = new HashSet<>(report.referenced());
    Map<InstanceName, Integer> failed = new HashMap<>();
    report.failed().forEach(one -> failed.put(one.instance(), one.reason()));
    for (InstanceName name : names) {
      if (failed.containsKey(name)) {
        reasons.put(name, Commitment.words(failed.get(name)));
      } else if (kept.contains(name)) {
        committed.add(name);
      } else {
        reasons.put(name, "the report does not name it");
      }
    }
    notifyAll();
    return StoreStatus.SUCCESS;
  }

  /**
   * Takes a message that should be a report, and answers it.
   *
   * @throws AssociationException when it is none
   */
  void answer(Association association, Association.Message message) throws IOException {
    Command command = message.command();
    if (command.number(Command.FIELD).orElse(0) != Command.N_EVENT_REPORT_RQ
        || !message.context().abstractSyntax().equals(Uids.COMMITMENT)
        || !command.hasDataSet()) {
      throw AssociationException.broken(
          AssociationException.UNEXPECTED_PDU, "a report of storage commitment was due");
    }
    byte[] data = CommitmentMessages.dataSet(association, message.context());
    Commitment report = CommitmentDecoder.decode(data, message.context().transferSyntax());
    association.send(message.context(), CommitmentMessages.heard(command, hear(report)));
  }

  /** Returns whether reports are still due. */
  synchronized boolean due() {
    return !open.isEmpty();
  }

  /** Waits until no report is due, or until a time of {@link System#nanoTime()}. */
  synchronized void await(long end) throws InterruptedException {
    long left = end - System.nanoTime();
    while (due() && left > 0) {
      wait(Math.max(1, TimeUnit.NANOSECONDS.toMillis(left)));
      left = end - System.nanoTime();
    }
  }

  synchronized boolean committed(InstanceName name) {
    return committed.contains(name);
  }

  synchronized String reason(InstanceName name) {
    return reasons.getOrDefault(name, NO_REPORT);
  }

  /** Sends a request, in the context and message given. */
  static void ask(
      Association association, PresentationContext context, int messageId, Commitment request)
      throws IOException {
    association.send(
        context,
        CommitmentMessages.request(messageId),
        new ByteArrayInputStream(CommitmentEncoder.encode(request, context.transferSyntax())));
  }
}

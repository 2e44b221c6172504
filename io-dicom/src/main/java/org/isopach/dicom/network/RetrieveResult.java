package org.isopach.dicom.network;

/**
 * How a retrieval of one study ended.
 *
 * @param completed objects that are kept; until {@link #against}, that the archive says it sent
 * @param failed objects it could not send, or that are not kept
 * @param status of the last answer; 0 for success
 * @param comment of the archive; may be empty
 */
public record RetrieveResult(int completed, int failed, int status, String comment) {
  /** Returns whether there was something and all of it is kept. */
  public boolean whole() {
    return status == StoreStatus.SUCCESS && failed == 0 && completed > 0;
  }

  /** Returns what came of it by what we took, whatever the archive says. */
  RetrieveResult against(int taken) {
    int lost = Math.max(failed, failed + completed - taken);
    boolean nothing = status == StoreStatus.SUCCESS && lost == 0 && taken == 0;
    return new RetrieveResult(
        taken, lost, status, nothing ? "the archive sent no object" : comment);
  }
}

package org.isopach.dicom.network;

/**
 * How a retrieval of one study ended.
 *
 * @param completed objects the archive says it sent
 * @param failed objects it could not send, or that we refused
 * @param status of the last answer; 0 for success
 * @param comment of the archive; may be empty
 */
public record RetrieveResult(int completed, int failed, int status, String comment) {
  /** Returns whether everything was sent. */
  public boolean whole() {
    return status == StoreStatus.SUCCESS && failed == 0;
  }
}

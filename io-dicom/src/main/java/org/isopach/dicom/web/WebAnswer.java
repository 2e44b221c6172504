package org.isopach.dicom.web;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.net.http.HttpHeaders;
import org.isopach.dicom.network.Printable;

/**
 * What a server answered.
 *
 * @param status of HTTP
 * @param headers may hold anything
 * @param body is read once; closing it ends the answer
 */
record WebAnswer(int status, HttpHeaders headers, InputStream body) implements Closeable {
  static final int OK = 200;
  static final int ACCEPTED = 202;
  static final int NO_CONTENT = 204;
  private static final int REDIRECTION = 3;
  private static final int SERVER_FAULT = 5;

  /** Returns a header; empty when absent. */
  String header(String name) {
    return headers.firstValue(name).orElse("");
  }

  MediaType mediaType() throws WebException {
    return MediaType.of(header("content-type"));
  }

  /**
   * Checks that the server did as asked.
   *
   * @throws WebException when not, with the reason as the status says it
   */
  WebAnswer good() throws WebException {
    String encoding = header("content-encoding");
    if (status == OK || status == ACCEPTED || status == NO_CONTENT) {
      if (!encoding.isEmpty() && !encoding.equalsIgnoreCase("identity")) {
        throw WebException.lasting("the answer is compressed, which was not asked for");
      }
      return this;
    }
    if (status / 100 == REDIRECTION) {
      throw WebException.last(
          "the server sends us elsewhere ("
              + status
              + ", "
              + Printable.of(header("location"))
              + "); give that URL if it is the right one");
    }
    if (status == 401 || status == 403) {
      throw WebException.last("the server does not let us in (" + status + ")");
    }
    String moment = "the server cannot at the moment (" + status + ")";
    if (status == 429) {
      throw WebException.passing(moment);
    }
    if (status == 408 || (status / 100 == SERVER_FAULT && status != 501 && status != 505)) {
      throw WebException.fault(moment);
    }
    throw WebException.lasting("the server refuses (" + status + ")");
  }

  @Override
  public void close() throws IOException {
    body.close();
  }
}

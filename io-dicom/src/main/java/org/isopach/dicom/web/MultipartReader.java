package org.isopach.dicom.web;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Reads the parts of a multipart body one after another (RFC 2046, 5.1). Memory does not depend on
 * what the server sends: one buffer, and a head of at most 16 KiB.
 */
final class MultipartReader {
  private static final int BUFFER = 64 * 1024;
  private static final int LONGEST_BOUNDARY = 70;
  private static final int LONGEST_HEAD = 16 * 1024;
  private static final int LONGEST_PREAMBLE = 64 * 1024;

  private final InputStream in;
  private final byte[] delimiter;
  private final byte[] buffer = new byte[BUFFER];
  private int position;
  private int limit;
  private int bodyEnd;
  private boolean eof;
  private boolean started;
  private Map<String, String> head = Map.of();

  /**
   * Starts before the first part.
   *
   * @throws WebException when the boundary cannot be one
   */
  MultipartReader(InputStream in, String boundary) throws WebException {
    boolean plain = boundary.chars().allMatch(c -> c >= ' ' && c <= '~');
    if (boundary.isEmpty() || boundary.length() > LONGEST_BOUNDARY || !plain) {
      throw WebException.lasting("the answer has no sound boundary between its parts");
    }
    this.in = in;
    this.delimiter = ("\r\n--" + boundary).getBytes(StandardCharsets.US_ASCII);
    // The first boundary may stand at the very start.
    buffer[0] = '\r';
    buffer[1] = '\n';
    limit = 2;
  }

  /**
   * Goes to the next part; the body of the last must have been read.
   *
   * @return whether there is one
   * @throws WebException when the body ends without its last boundary, or has another form
   */
  boolean next() throws IOException {
    if (!started) {
      started = true;
      skipPreamble();
    }
    if (bodyReady() > 0) {
      throw new IllegalStateException("the last part was not read to its end");
    }
    position += delimiter.length;
    need(2);
    if (buffer[position] == '-' && buffer[position + 1] == '-') {
      return false;
    }
    if (!line().isBlank()) {
      throw WebException.lasting("a boundary goes on with other text");
    }
    head = readHead();
    bodyEnd = position;
    return true;
  }

  /** Returns a header of this part; empty when absent. */
  String header(String name) {
    return head.getOrDefault(name.toLowerCase(Locale.ROOT), "");
  }

  /** Returns the body of this part; closing it does nothing. */
  InputStream body() {
    return new InputStream() {
      @Override
      public int read() throws IOException {
        return bodyReady() == 0 ? -1 : buffer[position++] & 0xff;
      }

      @Override
      public int read(byte[] bytes, int offset, int length) throws IOException {
        int count = Math.min(length, bodyReady());
        System.arraycopy(buffer, position, bytes, offset, count);
        position += count;
        return count == 0 && length > 0 ? -1 : count;
      }
    };
  }

  private void skipPreamble() throws IOException {
    int skipped = 0;
    for (int ready = bodyReady(); ready > 0; ready = bodyReady()) {
      skipped += ready;
      position += ready;
      if (skipped > LONGEST_PREAMBLE) {
        throw WebException.lasting("no part begins in the first 64 KiB of the answer");
      }
    }
  }

  /** Returns how many bytes of the body stand in the buffer; 0 at its end. */
  private int bodyReady() throws IOException {
    if (position < bodyEnd) {
      return bodyEnd - position;
    }
    need(delimiter.length);
    int at = find();
    bodyEnd = at < 0 ? limit - delimiter.length + 1 : at;
    return bodyEnd - position;
  }

  private int find() {
    for (int at = position; at + delimiter.length <= limit; at++) {
      if (buffer[at] == '\r' && matches(at)) {
        return at;
      }
    }
    return -1;
  }

  private boolean matches(int at) {
    for (int i = 1; i < delimiter.length; i++) {
      if (buffer[at + i] != delimiter[i]) {
        return false;
      }
    }
    return true;
  }

  private Map<String, String> readHead() throws IOException {
    Map<String, String> headers = new TreeMap<>();
    int length = 0;
    for (String text = line(); !text.isEmpty(); text = line()) {
      int colon = text.indexOf(':');
      length += text.length() + 2;
      if (colon < 1 || length > LONGEST_HEAD) {
        throw WebException.lasting("the head of a part is too long or has another form");
      }
      headers.putIfAbsent(
          text.substring(0, colon).toLowerCase(Locale.ROOT), text.substring(colon + 1).strip());
    }
    return headers;
  }

  private String line() throws IOException {
    StringBuilder text = new StringBuilder();
    while (true) {
      need(1);
      char next = (char) (buffer[position++] & 0xff);
      if (next == '\n' && text.length() > 0 && text.charAt(text.length() - 1) == '\r') {
        return text.substring(0, text.length() - 1);
      }
      text.append(next);
      if (text.length() > LONGEST_HEAD) {
        throw WebException.lasting("the head of a part is longer than 16 KiB");
      }
    }
  }

  private void need(int bytes) throws IOException {
    while (limit - position < bytes) {
      if (limit == buffer.length || position > 0) {
        System.arraycopy(buffer, position, buffer, 0, limit - position);
        limit -= position;
        bodyEnd = Math.max(0, bodyEnd - position);
        position = 0;
      }
      int got = eof ? -1 : in.read(buffer, limit, buffer.length - limit);
      if (got < 0) {
        eof = true;
        throw WebException.lost("the answer ends before its last boundary");
      }
      limit += got;
    }
  }
}

package org.isopach.dicom.web;

import java.io.IOException;

/** A server could not be reached, refused, or said what cannot be used. */
public final class WebException extends IOException {
  private static final long serialVersionUID = 1L;

  /** What to do next. */
  enum Kind {
    /** Nobody was reached, or the server wants to be left alone; it may work later. */
    PASSING,
    /** The connection was lost or silent; it may work when tried again, or with another request. */
    LOST,
    /** The server itself failed on the request; it may work when tried again, or with another. */
    FAULT,
    /** The same request will fail again; another may not. */
    LASTING,
    /** Nothing more is asked of this server in this run. */
    FINAL
  }

  private final Kind kind;

  private WebException(Kind kind, String message, Throwable cause) {
    super(message, cause);
    this.kind = kind;
  }

  static WebException passing(String message) {
    return new WebException(Kind.PASSING, message, null);
  }

  static WebException passing(String message, Throwable cause) {
    return new WebException(Kind.PASSING, message, cause);
  }

  static WebException lost(String message) {
    return new WebException(Kind.LOST, message, null);
  }

  static WebException lost(String message, Throwable cause) {
    return new WebException(Kind.LOST, message, cause);
  }

  static WebException fault(String message) {
    return new WebException(Kind.FAULT, message, null);
  }

  static WebException lasting(String message) {
    return new WebException(Kind.LASTING, message, null);
  }

  static WebException lasting(String message, Throwable cause) {
    return new WebException(Kind.LASTING, message, cause);
  }

  static WebException last(String message) {
    return new WebException(Kind.FINAL, message, null);
  }

  static WebException last(String message, Throwable cause) {
    return new WebException(Kind.FINAL, message, cause);
  }

  /** Returns what to do next after any failure; what we know nothing of is a lost connection. */
  static Kind of(IOException failure) {
    return failure instanceof WebException known ? known.kind : Kind.LOST;
  }

  /** Returns whether the same request may work when it is made again. */
  static boolean mayPass(IOException failure) {
    Kind kind = of(failure);
    return kind == Kind.PASSING || kind == Kind.LOST || kind == Kind.FAULT;
  }
}

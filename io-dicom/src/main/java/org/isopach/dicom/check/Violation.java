package org.isopach.dicom.check;

import java.util.Objects;

/**
 * One thing in an object that the standard does not allow.
 *
 * @param path where, tags and 1-based items from the outside in, such as {@code
 *     (0040,9096)[1]/(0040,9225)}
 * @param rule what is broken
 * @param expected what the standard asks for
 * @param actual what the object has
 */
public record Violation(String path, Rule rule, String expected, String actual) {
  /** What can be broken. */
  public enum Rule {
    /** The SOP class is none we have a table of. */
    OBJECT_KNOWN,
    /** A module that must not be there is. */
    MODULE_FORBIDDEN,
    /** An attribute that must be there is not. */
    PRESENCE,
    /** An attribute that must not be there is. */
    FORBIDDEN,
    /** An attribute that must have a value has none. */
    VALUE,
    /** The value representation is another. */
    REPRESENTATION,
    /** Too few or too many values. */
    MULTIPLICITY,
    /** A value that is none of the enumerated ones. */
    ENUMERATION,
    /** Too few or too many items. */
    ITEM_COUNT,
    /** A code without value, scheme or meaning. */
    CODE_COMPLETE,
    /** A code outside its context group, or another than the one allowed. */
    CODE_ALLOWED,
    /** A UID that is not well-formed. */
    UID,
    /** A value not written as its representation asks. */
    FORMAT,
    /** Attributes of the pixels that contradict each other or the pixel data. */
    PIXELS,
    /** A functional group missing, forbidden or in two places. */
    FUNCTIONAL_GROUP,
    /** A content item of a report where its class or template has none such. */
    CONTENT
  }

  public Violation {
    Objects.requireNonNull(path, "path");
    Objects.requireNonNull(rule, "rule");
    Objects.requireNonNull(expected, "expected");
    Objects.requireNonNull(actual, "actual");
  }

  @Override
  public String toString() {
    return path + " " + rule + ": expected " + expected + ", was " + actual;
  }
}

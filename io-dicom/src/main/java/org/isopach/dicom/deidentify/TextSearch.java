package org.isopach.dicom.deidentify;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/**
 * Looks for texts in bytes that come piece by piece: as Latin-1, UTF-8 and both kinds of UTF-16, in
 * capitals or not. For one stream.
 */
final class TextSearch {
  private static final List<Charset> ENCODINGS =
      List.of(
          StandardCharsets.ISO_8859_1,
          StandardCharsets.UTF_8,
          StandardCharsets.UTF_16LE,
          StandardCharsets.UTF_16BE);

  private final List<byte[]> needles = new ArrayList<>();
  private final BitSet starts = new BitSet(1 << 16);
  private byte[] rest = new byte[0];
  private int longest;
  private boolean found;

  /** Makes one that looks for texts of at least two characters. */
  TextSearch(Collection<String> texts) {
    Set<String> done = new TreeSet<>();
    for (String text : texts) {
      for (String form :
          List.of(text, text.toLowerCase(Locale.ROOT), text.toUpperCase(Locale.ROOT))) {
        if (done.add(form)) {
          ENCODINGS.forEach(encoding -> add(form, encoding));
        }
      }
    }
  }

  private void add(String text, Charset encoding) {
    if (!encoding.newEncoder().canEncode(text)) {
      return;
    }
    byte[] needle = lower(text.getBytes(encoding));
    if (needle.length >= 2 && needles.stream().noneMatch(one -> Arrays.equals(one, needle))) {
      needles.add(needle);
      starts.set(pair(needle, 0));
      longest = Math.max(longest, needle.length);
    }
  }

  /** Takes the next bytes of the stream. */
  void feed(byte[] bytes, int length) {
    if (found || needles.isEmpty()) {
      return;
    }
    byte[] all = Arrays.copyOf(rest, rest.length + length);
    System.arraycopy(bytes, 0, all, rest.length, length);
    all = lower(all);
    for (int i = 0; i + 1 < all.length && !found; i++) {
      found = starts.get(pair(all, i)) && anyAt(all, i);
    }
    rest = Arrays.copyOfRange(all, Math.max(0, all.length - longest + 1), all.length);
  }

  /** Returns whether one of the texts was met so far. */
  boolean found() {
    return found;
  }

  private boolean anyAt(byte[] all, int at) {
    for (byte[] needle : needles) {
      int end = at + needle.length;
      if (end <= all.length && Arrays.equals(all, at, end, needle, 0, needle.length)) {
        return true;
      }
    }
    return false;
  }

  private static int pair(byte[] bytes, int at) {
    return (bytes[at] & 0xff) << 8 | (bytes[at + 1] & 0xff);
  }

  private static byte[] lower(byte[] bytes) {
    byte[] lower = bytes.clone();
    for (int i = 0; i < lower.length; i++) {
      if (lower[i] >= 'A' && lower[i] <= 'Z') {
        lower[i] = (byte) (lower[i] + 'a' - 'A');
      }
    }
    return lower;
  }
}

package org.isopach.dicom.check;

/**
 * How many values or items are allowed.
 *
 * @param least fewest
 * @param most most; {@link Integer#MAX_VALUE} when open
 * @param step the number is a multiple of this
 */
record Multiplicity(int least, int most, int step) {
  /** Returns the multiplicity of the standard's notation: 1, 1-3, 1-n, 2-2n. */
  static Multiplicity parse(String text) {
    String[] parts = text.split("-", -1);
    int least = Integer.parseInt(parts[0]);
    if (parts.length == 1) {
      return new Multiplicity(least, least, 1);
    }
    if (!parts[1].endsWith("n")) {
      return new Multiplicity(least, Integer.parseInt(parts[1]), 1);
    }
    String step = parts[1].substring(0, parts[1].length() - 1);
    return new Multiplicity(least, Integer.MAX_VALUE, step.isEmpty() ? 1 : Integer.parseInt(step));
  }

  boolean allows(int count) {
    return count >= least && count <= most && count % step == 0;
  }

  @Override
  public String toString() {
    if (most == Integer.MAX_VALUE) {
      return least + "-" + (step == 1 ? "" : step) + "n";
    }
    return least == most ? Integer.toString(least) : least + "-" + most;
  }
}

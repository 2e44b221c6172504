package org.isopach.dicom.network;

import java.net.InetAddress;
import java.net.UnknownHostException;

/**
 * Addresses that agree in their first bits, such as {@code 10.1.0.0/16} or {@code 192.0.2.7}.
 *
 * @param network one of the addresses
 * @param bits how many bits must agree
 */
public record AddressRange(InetAddress network, int bits) {
  /**
   * Reads a range.
   *
   * @throws IllegalArgumentException when the text is not a numeric address, with or without a
   *     number of bits
   */
  public static AddressRange of(String text) {
    int slash = text.indexOf('/');
    String address = slash < 0 ? text : text.substring(0, slash);
    if (!address.matches("[0-9.]+|[0-9a-fA-F:.]*:[0-9a-fA-F:.]*")) {
      throw new IllegalArgumentException("'" + text + "' is not a numeric address");
    }
    try {
      InetAddress network = InetAddress.getByName(address);
      int most = network.getAddress().length * Byte.SIZE;
      int bits = slash < 0 ? most : Integer.parseInt(text.substring(slash + 1));
      if (bits < 0 || bits > most) {
        throw new IllegalArgumentException("'" + text + "': there are 0 to " + most + " bits");
      }
      return new AddressRange(network, bits);
    } catch (UnknownHostException | NumberFormatException e) {
      throw new IllegalArgumentException("'" + text + "' is not a range of addresses", e);
    }
  }

  /** Returns one address alone. */
  static AddressRange only(InetAddress address) {
    return new AddressRange(address, address.getAddress().length * Byte.SIZE);
  }

  /** Returns whether an address lies in the range. */
  public boolean contains(InetAddress address) {
    byte[] ours = network.getAddress();
    byte[] theirs = address.getAddress();
    if (ours.length != theirs.length) {
      return false;
    }
    for (int bit = 0; bit < bits; bit++) {
      int mask = 0x80 >> bit % Byte.SIZE;
      if (((ours[bit / Byte.SIZE] ^ theirs[bit / Byte.SIZE]) & mask) != 0) {
        return false;
      }
    }
    return true;
  }
}

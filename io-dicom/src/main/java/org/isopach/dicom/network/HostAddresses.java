package org.isopach.dicom.network;

import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.util.ArrayList;
import java.util.List;

/** The addresses a host may call from, as far as its name tells. */
final class HostAddresses {
  private static final List<String> LOOPBACK = List.of("127.0.0.0/8", "::1/128");

  private HostAddresses() {}

  /**
   * Returns the addresses of a host. When it is this machine, which may call itself from any of its
   * addresses, these are all of them.
   *
   * @param host name or address
   * @throws java.net.UnknownHostException when the name is not known
   */
  static List<AddressRange> of(String host) throws IOException {
    List<AddressRange> all = new ArrayList<>();
    boolean here = false;
    for (InetAddress address : InetAddress.getAllByName(host)) {
      all.add(AddressRange.only(address));
      here |= address.isLoopbackAddress() || NetworkInterface.getByInetAddress(address) != null;
    }
    if (here) {
      LOOPBACK.forEach(range -> all.add(AddressRange.of(range)));
      NetworkInterface.networkInterfaces()
          .flatMap(NetworkInterface::inetAddresses)
          .forEach(address -> all.add(AddressRange.only(address)));
    }
    return all;
  }
}

package org.isopach.dicom.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Who may call the port that an archive sends to (C-MOVE). All calls come from this machine. */
class ArchivePortTest {
  @TempDir Path folder;
  private final HeardEvents events = new HeardEvents();

  private ListenerSettings port(String host, List<AddressRange> from) throws IOException {
    CallerSettings archive =
        new CallerSettings(
            Peers.AET, new Destination("TERN", host, 104), Peers.PATIENCE, Optional.empty(), 0);
    return new ArchiveClient(archive, events).port(0, folder.resolve("out"), false, from);
  }

  @Test
  void isClosedToOtherAddressesThanTheArchives() throws IOException, InterruptedException {
    try (StorageListener listener = StorageListener.start(port("192.0.2.1", List.of()), events)) {
      CallerSettings other = Peers.to(listener.port());
      assertThrows(IOException.class, () -> StorageSender.echo(other));
    }
    assertTrue(events.hear("its address may not call"), events.toString());
  }

  @Test
  void isOpenToTheArchiveAndToAddressesThatAreNamed() throws IOException {
    for (ListenerSettings settings :
        List.of(
            port("localhost", List.of()),
            port(InetAddress.getLoopbackAddress().getHostAddress(), List.of()),
            port("192.0.2.1", List.of(AddressRange.of("127.0.0.0/8"), AddressRange.of("::1"))))) {
      try (StorageListener listener = StorageListener.start(settings, events)) {
        StorageSender.echo(Peers.to(listener.port()));
      }
    }
  }

  /** A host may have several addresses, as this machine has for itself. */
  @Test
  void anArchiveOnThisMachineMayCallFromAnyAddressOfIt() throws IOException {
    List<AddressRange> here = HostAddresses.of("127.0.1.1");
    for (String address : List.of("127.0.0.1", "127.0.1.1", "::1")) {
      InetAddress one = InetAddress.getByName(address);
      assertTrue(here.stream().anyMatch(range -> range.contains(one)), address);
    }
    assertEquals(List.of(AddressRange.of("2001:db8::7")), HostAddresses.of("[2001:db8::7]"));
    assertThrows(IOException.class, () -> HostAddresses.of("a.invalid"));
  }
}

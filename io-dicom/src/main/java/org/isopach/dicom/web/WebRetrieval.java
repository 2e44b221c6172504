package org.isopach.dicom.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.URI;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.isopach.dicom.network.FileMeta;
import org.isopach.dicom.network.NetworkEvents;
import org.isopach.dicom.network.ReceivedFolder;
import org.isopach.dicom.network.StoreStatus;

/**
 * Fetches one study (WADO-RS, PS3.18, 10.4): first in one answer; what is then missing object by
 * object. An object is kept as one that a listener receives: once, whole, forced to the disk. Its
 * file meta information is made anew, so that it does not matter how it came.
 */
final class WebRetrieval {
  private static final String OBJECT = "application/dicom";
  private static final String ACCEPT =
      "multipart/related; type=\"application/dicom\"; transfer-syntax=*";
  private static final String RELATED = "multipart/related";
  private static final int MOST_PARTS = 100_000;
  private static final int MOST_IN_VAIN = 2;

  private final WebSettings settings;
  private final WebExchange exchange;
  private final ReceivedFolder objects;
  private final NetworkEvents events;
  private final String studyUid;
  private final long mostBytes;
  private final Set<String> kept = new LinkedHashSet<>();
  private final Set<String> refused = new LinkedHashSet<>();

  WebRetrieval(
      WebSettings settings,
      WebExchange exchange,
      ReceivedFolder objects,
      NetworkEvents events,
      String studyUid,
      long mostBytes) {
    this.settings = settings;
    this.exchange = exchange;
    this.objects = objects;
    this.events = events;
    this.studyUid = studyUid;
    this.mostBytes = mostBytes;
  }

  /** Returns the SOP Instance UIDs of what is kept. */
  Set<String> kept() {
    return kept;
  }

  /**
   * Fetches the objects that are listed, and others of the study the server sends with them.
   *
   * @throws IOException when nothing more can be fetched from this server
   */
  void run(List<WebQuery.Instance> listed) throws IOException {
    try {
      fetch("/studies/" + studyUid);
    } catch (IOException e) {
      told(e, "study " + studyUid);
    }
    int inVain = 0;
    for (WebQuery.Instance one : listed) {
      String uid = one.instanceUid();
      if (!kept.contains(uid) && !refused.contains(uid)) {
        inVain = single(one) ? 0 : inVain + 1;
      }
      if (inVain == MOST_IN_VAIN) {
        refuse("nothing came in two turns; the rest is not asked for");
        return;
      }
    }
  }

  /** Fetches one object; returns false when all tries were in vain although they might not be. */
  private boolean single(WebQuery.Instance one) throws IOException {
    String path =
        "/studies/" + studyUid + "/series/" + one.seriesUid() + "/instances/" + one.instanceUid();
    try {
      return exchange.patiently(() -> fetch(path));
    } catch (IOException e) {
      told(e, "object " + one.instanceUid());
      return WebException.of(e) == WebException.Kind.LASTING;
    }
  }

  private void told(IOException failure, String what) throws IOException {
    if (WebException.of(failure) == WebException.Kind.FINAL) {
      throw failure;
    }
    refuse(what + ": " + failure.getMessage());
  }

  private boolean fetch(String path) throws IOException {
    URI resource = settings.service().resource(path, Map.of());
    try (WebAnswer answer = exchange.get(resource, ACCEPT)) {
      MediaType type = answer.mediaType();
      String parts = type.parameter("type");
      if (!type.name().equals(RELATED) || !(parts.isEmpty() || parts.equalsIgnoreCase(OBJECT))) {
        throw WebException.lasting("what came is not multipart/related of application/dicom");
      }
      MultipartReader reader = new MultipartReader(answer.body(), type.parameter("boundary"));
      for (int count = 0; reader.next(); count++) {
        if (count == MOST_PARTS) {
          throw WebException.last("more than " + MOST_PARTS + " objects in one answer");
        }
        part(reader);
      }
      return true;
    }
  }

  private void part(MultipartReader reader) throws IOException {
    BoundedStream body = new BoundedStream(reader.body(), mostBytes, "an object");
    if (!MediaType.of(reader.header("content-type")).name().equals(OBJECT)) {
      throw WebException.lasting("a part is not of type application/dicom");
    }
    Part10Head.Read read = Part10Head.of(body);
    if (read.head().isPresent()) {
      keep(read.head().get(), body, reader.header("content-length"));
    } else {
      refuse(read.why());
      body.transferTo(OutputStream.nullOutputStream());
    }
  }

  private void keep(Part10Head head, BoundedStream body, String length) throws IOException {
    String uid = head.sopInstance();
    Path part = objects.newPart();
    StoreStatus status;
    try {
      write(head, body, part);
      boolean lies = !length.isEmpty() && !length.equals(String.valueOf(body.count()));
      status =
          lies
              ? new StoreStatus(StoreStatus.MISMATCH, "its length is not the one that was told")
              : place(part, head);
    } finally {
      Files.deleteIfExists(part);
    }
    if (status.good()) {
      kept.add(uid);
      events.event(NetworkEvents.Kind.DONE, settings.service() + ": stored " + uid);
    } else {
      refused.add(uid);
      refuse("refused " + uid + ": " + status.comment());
    }
  }

  private static void write(Part10Head head, InputStream body, Path part) throws IOException {
    byte[] meta = FileMeta.of(head.sopClass(), head.sopInstance(), head.transferSyntax());
    try (PartFile file = PartFile.create(part)) {
      file.write(ByteBuffer.wrap(meta));
      file.writeAll(body);
    }
  }

  private StoreStatus place(Path part, Part10Head head) throws WebException {
    try {
      return objects.keep(part, head.sopClass(), head.sopInstance());
    } catch (IOException e) {
      throw PartFile.refused(e);
    }
  }

  private void refuse(String line) {
    events.event(NetworkEvents.Kind.REFUSED, settings.service() + ": " + line);
  }
}

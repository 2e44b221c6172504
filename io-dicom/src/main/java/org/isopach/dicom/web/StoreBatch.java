package org.isopach.dicom.web;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import org.isopach.dicom.network.FileMeta;
import org.isopach.dicom.network.OutgoingFile;
import org.isopach.dicom.network.UnreadableFile;

/**
 * The body of one store request: a multipart of files, read while it is sent. Each gets file meta
 * information of ours; its data set goes out as it is.
 */
final class StoreBatch {
  private static final SecureRandom RANDOM = new SecureRandom();
  private static final byte[] LINE_END = ascii("\r\n");

  private final List<OutgoingFile> files;
  private final AtomicLong sent = new AtomicLong();
  private final AtomicReference<UnreadableFile> unreadable = new AtomicReference<>();

  /** Nobody who made a file can have foreseen it. */
  private final String boundary = boundary();

  StoreBatch(List<OutgoingFile> files) {
    this.files = List.copyOf(files);
  }

  private static String boundary() {
    byte[] bytes = new byte[16];
    RANDOM.nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }

  /** Returns the value of the Content-Type header. */
  String contentType() {
    return "multipart/related; type=\"application/dicom\"; boundary=" + boundary;
  }

  /** Returns how many bytes went out. */
  long sent() {
    return sent.get();
  }

  /** Returns the body, with its length. */
  BodyPublisher body() throws IOException {
    long length = end().length;
    for (OutgoingFile file : files) {
      length += start(file).length + dataSetBytes(file) + LINE_END.length;
    }
    return BodyPublishers.fromPublisher(BodyPublishers.ofInputStream(this::open), length);
  }

  private static long dataSetBytes(OutgoingFile file) throws IOException {
    return Files.size(file.path()) - file.identity().datasetStart();
  }

  private InputStream open() {
    List<ChainedPieces.Piece> pieces = new ArrayList<>();
    for (OutgoingFile file : files) {
      pieces.add(() -> new ByteArrayInputStream(start(file)));
      pieces.add(() -> file.dataSet(unreadable::set));
      pieces.add(() -> new ByteArrayInputStream(LINE_END));
    }
    pieces.add(() -> new ByteArrayInputStream(end()));
    return new ChainedPieces(pieces, sent);
  }

  /** Returns why the body could not be read to its end; who sends it keeps that to itself. */
  Optional<UnreadableFile> unreadable() {
    return Optional.ofNullable(unreadable.get());
  }

  private byte[] start(OutgoingFile file) {
    byte[] head = ascii("--" + boundary + "\r\nContent-Type: application/dicom\r\n\r\n");
    byte[] meta =
        FileMeta.of(
            file.identity().sopClassUid(),
            file.identity().sopUid(),
            file.identity().transferSyntaxUid());
    byte[] both = Arrays.copyOf(head, head.length + meta.length);
    System.arraycopy(meta, 0, both, head.length, meta.length);
    return both;
  }

  private byte[] end() {
    return ascii("--" + boundary + "--\r\n");
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}

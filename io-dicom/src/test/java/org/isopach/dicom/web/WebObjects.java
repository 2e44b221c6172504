package org.isopach.dicom.web;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;

/** Objects, and what servers say of them. */
final class WebObjects {
  static final String BOUNDARY = "tern-sound";
  static final String STUDY = new TomographyBuilder().build().text(Tags.STUDY_INSTANCE_UID).get();
  static final String SERIES = new TomographyBuilder().build().text(Tags.SERIES_INSTANCE_UID).get();
  static final String TYPE = "multipart/related; type=\"application/dicom\"; boundary=" + BOUNDARY;

  private WebObjects() {}

  static String uid(int number) {
    return "2.25." + (7000000000L + number);
  }

  static Path write(Path folder, int number) throws IOException {
    Files.createDirectories(folder);
    return new TomographyBuilder()
        .with(object -> object.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid(number)))
        .write(folder.resolve(number + ".dcm"));
  }

  static byte[] object(Path folder, int number) throws IOException {
    return Files.readAllBytes(write(folder, number));
  }

  /** Returns the answer that lists objects of the study. */
  static byte[] listed(String... uids) {
    return ScriptedServer.json(
        Stream.of(uids)
            .map(uid -> "{" + text("0008", "0018", uid) + "," + text("0020", "000E", SERIES) + "}")
            .collect(Collectors.joining(",", "[", "]")));
  }

  static String text(String group, String element, String value) {
    return "\"" + group + element + "\":{\"vr\":\"UI\",\"Value\":[\"" + value + "\"]}";
  }

  /** Returns a part, begun by its boundary. */
  static byte[] part(byte[] object, String moreHead) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    all.writeBytes(
        ScriptedServer.bytes(
            "--" + BOUNDARY + "\r\nContent-Type: application/dicom\r\n" + moreHead + "\r\n"));
    all.writeBytes(object);
    all.writeBytes(ScriptedServer.bytes("\r\n"));
    return all.toByteArray();
  }

  static byte[] end() {
    return ScriptedServer.bytes("--" + BOUNDARY + "--\r\n");
  }

  static byte[] joined(byte[]... pieces) {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    for (byte[] piece : pieces) {
      all.writeBytes(piece);
    }
    return all.toByteArray();
  }

  /** Returns the names of the objects a folder keeps. */
  static List<String> kept(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.endsWith(".dcm"))
          .sorted()
          .toList();
    }
  }

  /** Returns everything else in a folder but for the lock. */
  static List<Path> others(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(Files::isRegularFile)
          .filter(file -> !file.toString().endsWith(".dcm") && !file.endsWith("lock"))
          .toList();
    }
  }
}

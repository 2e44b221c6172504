package org.isopach.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.write.DicomWriters;

/** Small objects to send, and keys for TLS. */
final class NetworkFiles {
  static final String STUDY = "2.25.7103";

  /** Not a name: programs of others listen by IPv4 only, and a name may stand for ::1 alone. */
  static final String HOST = "127.0.0.1";

  static final String PATIENT = "TSEU-30007";
  private static final String PASSWORD = "sandpiper";
  private static final int SIDE = 8;

  private NetworkFiles() {}

  /** Writes small tomograms of one series that cannot be measured, and returns their folder. */
  static Path objects(Path folder, int count) throws IOException {
    Files.createDirectories(folder);
    for (int i = 0; i < count; i++) {
      object(folder.resolve(i + ".dcm"), "2.25.810" + i, (byte) i);
    }
    return folder;
  }

  /** Writes one such object whose pixels are all of one grey. */
  static Path object(Path file, String uid, byte grey) throws IOException {
    Dataset.Builder object =
        Dataset.builder()
            .text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.77.1.5.4")
            .text(Tags.SOP_INSTANCE_UID, Vr.UI, uid)
            .text(Tags.PATIENT_ID, Vr.LO, PATIENT)
            .text(Tags.STUDY_INSTANCE_UID, Vr.UI, STUDY)
            .text(Tags.SERIES_INSTANCE_UID, Vr.UI, "2.25.7104")
            .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
            .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
            .numbers(Tags.ROWS, Vr.US, SIDE)
            .numbers(Tags.COLUMNS, Vr.US, SIDE)
            .numbers(Tags.BITS_ALLOCATED, Vr.US, 8)
            .numbers(Tags.BITS_STORED, Vr.US, 8)
            .numbers(Tags.HIGH_BIT, Vr.US, 7)
            .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0);
    byte[] pixels = new byte[SIDE * SIDE];
    java.util.Arrays.fill(pixels, grey);
    DicomWriters.partTen().write(file, object.build(), pixels);
    return file;
  }

  /**
   * Makes a key with a certificate for localhost in {@code key.p12}, {@code trust.p12} that trusts
   * it, {@code certificate.pem} and the file {@code password}.
   */
  static void keys(Path folder) throws Exception {
    String key = folder.resolve("key.p12").toString();
    String certificate = folder.resolve("certificate.pem").toString();
    Files.writeString(folder.resolve("password"), PASSWORD + "\n");
    keytool(
        key,
        List.of(
            "-genkeypair",
            "-keyalg",
            "EC",
            "-dname",
            "CN=localhost",
            "-ext",
            "san=dns:localhost,ip:" + HOST));
    keytool(key, List.of("-exportcert", "-rfc", "-file", certificate));
    keytool(
        folder.resolve("trust.p12").toString(),
        List.of("-importcert", "-noprompt", "-file", certificate));
  }

  private static void keytool(String store, List<String> words) throws Exception {
    List<String> line = new ArrayList<>();
    line.add(Path.of(System.getProperty("java.home"), "bin", "keytool").toString());
    line.addAll(words);
    line.addAll(List.of("-alias", "tern", "-storetype", "PKCS12"));
    line.addAll(List.of("-keystore", store, "-storepass", PASSWORD));
    Process process = new ProcessBuilder(line).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    if (process.waitFor() != 0) {
      throw new IOException(said);
    }
  }
}

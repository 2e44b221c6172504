package org.isopach.dicom.deidentify;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.FileWalk;
import org.isopach.dicom.read.HeaderParser;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.ParsedObject;

/**
 * De-identifies whatever lies in some folders, file by file; sources are only read. For one use.
 */
public final class FolderDeidentifier {
  private static final int PATIENT_ID = 0x00100020;
  private static final int ISSUER = 0x00100021;
  private static final int IDENTITY_REMOVED = 0x00120062;
  private static final int METHOD = 0x00120063;
  private static final int METHOD_CODES = 0x00120064;
  private static final int DATES = 0x00280303;

  private final HeaderParser parser;
  private final DicomObjectWriter writer;
  private final ActionTable table = ActionTable.load();
  private final Options options;
  private final Pseudonyms names;
  private final Tally tally = new Tally();
  private final Set<String> seen = new HashSet<>();

  /** Makes one that reads and writes with a toolkit. */
  public FolderDeidentifier(
      HeaderParser parser, DicomObjectWriter writer, Options options, Pseudonyms names) {
    this.parser = parser;
    this.writer = writer;
    this.options = options;
    this.names = names;
  }

  /**
   * Writes what can be de-identified into a folder, {@code PSEUDONYM/NEW-UID.dcm}.
   *
   * @throws IOException when the folder cannot be written
   */
  public List<Outcome> run(List<Path> inputs, Path out) throws IOException {
    FileWalk walk = FileWalk.over(inputs);
    List<Outcome> outcomes = new ArrayList<>();
    walk.findings()
        .forEach(one -> outcomes.add(refused(Path.of(one.subject()), "it cannot be read")));
    for (Path file : walk.files()) {
      outcomes.add(one(file, out));
    }
    return outcomes;
  }

  /** Returns what was done, over all files written. */
  public Tally tally() {
    return tally;
  }

  private Outcome one(Path file, Path out) throws IOException {
    ParsedObject object;
    byte[] pixels;
    try {
      object = ParsedObject.of(file, parser);
      Admission.check(object);
      pixels = PixelCopy.of(object);
    } catch (ObjectDefect e) {
      boolean other = e.kind() == FindingKind.NOT_DICOM;
      String why = e.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
      return new Outcome(file, Optional.empty(), why, other);
    } catch (Refusal e) {
      return refused(file, e.getMessage());
    } catch (IOException e) {
      return refused(file, "it cannot be read");
    }
    return write(file, object, pixels, out);
  }

  private Outcome write(Path file, ParsedObject object, byte[] pixels, Path out)
      throws IOException {
    Dataset data = object.attributes();
    KnownTexts known = KnownTexts.of(data, table, DatasetCleaner.KEPT_TEXT);
    if (object.syntax().encapsulated() && known.in(pixels)) {
      return refused(file, "the compressed pixel data hold an identifier as text");
    }
    String uid = names.uid(data.text(Tags.SOP_INSTANCE_UID).orElseThrow());
    if (!seen.add(uid)) {
      return refused(file, "another file with the same SOP Instance UID was written already");
    }
    String patient = patient(data);
    Tally own = new Tally();
    Dataset clean = new DatasetCleaner(table, options, names, known, patient, own).clean(data);
    Path relative = Path.of(names.patient(patient), uid + ".dcm");
    Path target = out.resolve(relative);
    Files.createDirectories(target.getParent());
    try {
      write(target, stated(clean), object.syntax(), pixels);
    } catch (IOException e) {
      if (e.getCause() == null || e.getCause() instanceof IOException) {
        throw e;
      }
      return refused(file, "its attributes cannot be encoded again");
    }
    tally.add(own);
    return new Outcome(file, Optional.of(relative), "", false);
  }

  private void write(Path target, Dataset data, TransferSyntax syntax, byte[] pixels)
      throws IOException {
    if (syntax.encapsulated() && pixels.length > 0) {
      FragmentFile.write(writer, target, data, syntax, pixels);
    } else {
      writer.write(target, data, pixels);
    }
  }

  /** Returns whom an object is of; without Patient ID its study stands for a patient of its own. */
  private static String patient(Dataset data) {
    return data.text(PATIENT_ID)
        .map(id -> data.text(ISSUER).orElse("") + "\0" + id)
        .orElseGet(
            () ->
                "study\0"
                    + data.text(Tags.STUDY_INSTANCE_UID)
                        .or(() -> data.text(Tags.SOP_INSTANCE_UID))
                        .orElseThrow());
  }

  private Dataset stated(Dataset clean) {
    List<Dataset> codes = new ArrayList<>();
    codes.add(code("113100", "Basic Application Confidentiality Profile"));
    if (options.shiftDates()) {
      codes.add(code("113107", "Retain Longitudinal Temporal Information Modified Dates Option"));
    }
    if (options.keepCharacteristics()) {
      codes.add(code("113108", "Retain Patient Characteristics Option"));
    }
    if (options.keepDevice()) {
      codes.add(code("113109", "Retain Device Identity Option"));
    }
    return clean.toBuilder()
        .text(IDENTITY_REMOVED, Vr.CS, "YES")
        .text(METHOD, Vr.LO, "Isopach, PS3.15 annex E, table of 2024b")
        .items(METHOD_CODES, codes)
        .text(DATES, Vr.CS, options.shiftDates() ? "MODIFIED" : "REMOVED")
        .build();
  }

  private static Dataset code(String value, String meaning) {
    return new Code(value, "DCM", meaning).toItem();
  }

  private static Outcome refused(Path file, String why) {
    return new Outcome(file, Optional.empty(), why, false);
  }
}

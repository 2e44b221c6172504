package org.isopach.dicom.deidentify;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.DicomObjectWriter;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
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

  private final HeaderParser parser;
  private final DicomObjectWriter writer;
  private final ActionTable table = ActionTable.load();
  private final Pseudonyms names;
  private final StandardUids standard;
  private final Tally tally = new Tally();
  private final Set<String> seen = new HashSet<>();

  /** Makes one that reads and writes with a toolkit. */
  FolderDeidentifier(HeaderParser parser, DicomObjectWriter writer, Pseudonyms names) {
    this.parser = parser;
    this.writer = writer;
    this.names = names;
    this.standard = new StandardUids(parser);
  }

  /**
   * Writes what can be de-identified into a folder, {@code PSEUDONYM/NEW-UID.dcm}.
   *
   * @return what became of each file, in the order of their names
   * @throws IOException when the folder cannot be written
   */
  public List<Outcome> run(List<Path> inputs, OutFolder out) throws IOException {
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

  private Outcome one(Path file, OutFolder out) throws IOException {
    ParsedObject object;
    try {
      object = ParsedObject.of(file, parser);
      Admission.check(object, parser);
    } catch (ObjectDefect e) {
      boolean other = e.kind() == FindingKind.NOT_DICOM;
      String why = e.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ');
      return new Outcome(file, Optional.empty(), why, other);
    } catch (Refusal e) {
      return refused(file, e.getMessage());
    } catch (IOException e) {
      return refused(file, "it cannot be read");
    }
    try {
      return new Outcome(file, Optional.of(write(object, out)), "", false);
    } catch (Refusal e) {
      return refused(file, e.getMessage());
    }
  }

  /** Writes an object and returns where, relative to the folder. */
  private Path write(ParsedObject object, OutFolder out) throws IOException, Refusal {
    Dataset data = object.attributes();
    Options options = out.options();
    KnownTexts known = KnownTexts.of(data, table, options);
    String uid = names.uid(data.text(Tags.SOP_INSTANCE_UID).orElseThrow());
    if (seen.contains(uid)) {
      throw new Refusal("another file with the same SOP Instance UID was written already");
    }
    String patient = patient(data);
    Tally own = new Tally();
    Dataset clean = cleaner(options, known, patient, own).clean(data);
    neverRead(object, own);
    Path relative = Path.of(names.patient(patient), uid + ".dcm");
    Path part = out.part(relative);
    try {
      ObjectFile.write(writer, part, MethodStatement.addTo(clean, options), object, known);
      out.finish(part, relative);
    } catch (IOException e) {
      if (e.getCause() == null || e.getCause() instanceof IOException) {
        throw e;
      }
      throw new Refusal("its attributes cannot be encoded again");
    } finally {
      out.discard(part);
    }
    seen.add(uid);
    tally.add(own);
    return relative;
  }

  /** Counts what was left out before anything was cleaned; lengths of groups are no attributes. */
  private static void neverRead(ParsedObject object, Tally tally) throws IOException {
    Stream.concat(object.leftOut().stream(), object.behindPixels().stream())
        .filter(tag -> (tag & 0xffff) != 0)
        .forEach(tag -> tally.count(tag, Action.REMOVED));
  }

  private DatasetCleaner cleaner(Options options, KnownTexts known, String patient, Tally own) {
    return new DatasetCleaner(table, options, names, standard, known, patient, own);
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

  private static Outcome refused(Path file, String why) {
    return new Outcome(file, Optional.empty(), why, false);
  }
}

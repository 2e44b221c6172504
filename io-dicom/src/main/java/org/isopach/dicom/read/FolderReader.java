package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistration;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.file.FileDigest;

/**
 * Reads folders in two passes: the first recognises every file by its first attributes and keeps
 * only what the object is; the second reads fundus images, then the objects placed on them.
 */
public final class FolderReader {
  private final HeaderParser parser;
  private final Map<String, Localizer> localizers = new HashMap<>();
  private final List<ReadScan> scans = new ArrayList<>();
  private final List<ThicknessMap> maps = new ArrayList<>();
  private final List<StatedRegistration> registrations = new ArrayList<>();
  private final List<DerivedObject> derived = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();

  /** Makes a reader for one use. */
  public FolderReader(HeaderParser parser) {
    this.parser = parser;
  }

  /** Returns what is at some places. */
  public FolderContents read(List<Path> inputs) {
    FileWalk walk = FileWalk.over(inputs);
    findings.addAll(walk.findings());
    List<FoundObject> found = new ArrayList<>();
    for (Path path : walk.files()) {
      recognise(path).ifPresent(found::add);
    }
    Duplicates duplicates = Duplicates.among(found, parser);
    findings.addAll(duplicates.findings());
    List<FoundObject> used = duplicates.used();
    used.stream().filter(o -> o.kind().localizer()).forEach(this::readLocalizer);
    TomographyReader tomography = new TomographyReader(localizers);
    MapReader mapReader = new MapReader(localizers);
    for (FoundObject object : used) {
      if (object.kind() == SopKind.TOMOGRAPHY) {
        readInto(
            object, (parsed, sha, remarks) -> scans.add(tomography.read(parsed, sha, remarks)));
      } else if (object.kind() == SopKind.THICKNESS_MAP) {
        readInto(
            object,
            (parsed, sha, remarks) -> mapReader.read(parsed, sha, remarks).ifPresent(maps::add));
      }
    }
    readRegistrations(used);
    used.forEach(this::readDerived);
    return contents(walk.files().size());
  }

  private Optional<FoundObject> recognise(Path path) {
    Remarks remarks = new Remarks(path.toString());
    Optional<FoundObject> found = Optional.empty();
    try {
      ObjectSniff sniff = ObjectSniff.of(FileBytes.of(path));
      Optional<SopKind> kind = SopKind.ofUid(sniff.sopClassUid());
      if (kind.isPresent()) {
        found = Optional.of(new FoundObject(path, kind.get(), sniff.sopUid()));
      } else {
        remarks.add(FindingKind.NOT_OPHTHALMIC, otherKind(sniff.sopClassUid()));
      }
    } catch (ObjectDefect e) {
      remarks.add(e);
    } catch (IOException e) {
      remarks.add(FindingKind.UNREADABLE_FILE, "cannot be read: " + FileWalk.reason(e));
    }
    findings.addAll(remarks.findings());
    return found;
  }

  private String otherKind(String uid) {
    if (uid.isEmpty()) {
      return "the object does not state its SOP class";
    }
    String name = parser.sopClassName(uid);
    return "the object is " + (name.equals(uid) ? uid : name + " (" + uid + ")");
  }

  private void readLocalizer(FoundObject object) {
    readInto(
        object,
        (parsed, sha, remarks) -> {
          Localizer localizer = Localizer.of(parsed.attributes());
          localizers.put(localizer.sopUid(), localizer);
        });
  }

  /** Registrations are about the scans and images of the folder: they are read after those. */
  private void readRegistrations(List<FoundObject> used) {
    List<OctScan> placed = scans.stream().map(ReadScan::scan).toList();
    RegistrationReader reader = new RegistrationReader(new KnownFrames(placed, localizers));
    used.stream()
        .filter(object -> object.kind() == SopKind.SPATIAL_REGISTRATION)
        .forEach(
            object ->
                readInto(
                    object,
                    (parsed, sha, remarks) ->
                        registrations.addAll(reader.read(parsed, sha, remarks))));
    findings.addAll(RegistrationConflicts.among(registrations));
  }

  /**
   * Recognises what was made of a scan. Nothing about such an object keeps a scan from being
   * measured, so that one that cannot be understood is worth a note only. Thickness maps have been
   * read as maps before and are not spoken of twice.
   */
  private void readDerived(FoundObject object) {
    Optional<DerivedKind> kind = object.kind().derived();
    if (kind.isEmpty()) {
      return;
    }
    Remarks remarks = new Remarks(object.path().toString());
    boolean map = kind.get() == DerivedKind.THICKNESS_MAP;
    try {
      List<DerivedObject> parts =
          DerivedReader.read(ParsedObject.of(object.path(), parser), kind.get());
      derived.addAll(parts);
      if (!map) {
        remarks.add(FindingKind.DERIVED_OBJECT, "the object is a " + parts.get(0).title());
      }
    } catch (ObjectDefect e) {
      if (!map) {
        remarks.add(FindingKind.DERIVED_NOT_READ, kind.get().words() + ": " + e.detail());
      }
    } catch (IOException e) {
      if (!map) {
        remarks.add(FindingKind.UNREADABLE_FILE, "cannot be read: " + FileWalk.reason(e));
      }
    }
    findings.addAll(remarks.findings());
  }

  private void readInto(FoundObject object, ObjectUse use) {
    Remarks remarks = new Remarks(object.path().toString());
    try {
      ParsedObject parsed = ParsedObject.of(object.path(), parser);
      String sha = object.kind().localizer() ? "" : FileDigest.sha256(object.path());
      use.accept(parsed, sha, remarks);
    } catch (ObjectDefect e) {
      remarks.add(e);
    } catch (IOException e) {
      remarks.add(FindingKind.UNREADABLE_FILE, "cannot be read: " + FileWalk.reason(e));
    }
    findings.addAll(remarks.findings());
  }

  private FolderContents contents(int filesSeen) {
    scans.sort(Comparator.comparing(read -> SortKey.of(read.scan())));
    maps.sort(Comparator.comparing(SortKey::of));
    derived.sort(Comparator.comparing(SortKey::of));
    findings.sort(Comparator.comparing(Finding::subject));
    List<OctScan> inOrder = scans.stream().map(ReadScan::scan).toList();
    return new FolderContents(
        inOrder,
        scans.stream().map(ReadScan::description).toList(),
        maps,
        registrations,
        derived,
        findings,
        filesSeen);
  }

  /** What is done with a parsed object. */
  private interface ObjectUse {
    void accept(ParsedObject parsed, String sha256, Remarks remarks)
        throws ObjectDefect, IOException;
  }
}

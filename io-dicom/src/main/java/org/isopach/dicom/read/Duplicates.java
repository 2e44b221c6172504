package org.isopach.dicom.read;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.file.FileDigest;

/**
 * Objects that claim one SOP Instance UID. Copies with the same content count once, the first by
 * name; when contents differ none is used, since which is right cannot be known.
 *
 * <p>A file that ends too early says nothing about the others: it stays among the objects to use,
 * where reading it tells what is wrong with it, and the judgement is about the whole ones.
 */
final class Duplicates {
  private final HeaderParser parser;
  private final List<FoundObject> used = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();

  private Duplicates(HeaderParser parser) {
    this.parser = parser;
  }

  /** Returns the sorting out of objects, which keep their order. */
  static Duplicates among(List<FoundObject> found, HeaderParser parser) {
    Map<String, List<FoundObject>> byUid = new LinkedHashMap<>();
    for (FoundObject object : found) {
      String key = object.sopUid().isEmpty() ? object.path().toString() : object.sopUid();
      byUid.computeIfAbsent(key, k -> new ArrayList<>()).add(object);
    }
    Duplicates duplicates = new Duplicates(parser);
    byUid.values().forEach(duplicates::decide);
    return duplicates;
  }

  /** Returns the objects to use. */
  List<FoundObject> used() {
    return List.copyOf(used);
  }

  /** Returns one finding for each object left out. */
  List<Finding> findings() {
    return List.copyOf(findings);
  }

  private void decide(List<FoundObject> sameUid) {
    if (sameUid.size() == 1) {
      used.addAll(sameUid);
      return;
    }
    List<FoundObject> whole = new ArrayList<>();
    for (FoundObject object : sameUid) {
      boolean cut = incomplete(object);
      (cut ? used : whole).add(object);
    }
    if (!whole.isEmpty()) {
      judge(whole);
    }
  }

  private boolean incomplete(FoundObject object) {
    if (object.kind().pictured()) {
      return ObjectPixels.incomplete(object.path(), parser);
    }
    try {
      ParsedObject.of(object.path(), parser);
      return false;
    } catch (ObjectDefect e) {
      return e.kind() == FindingKind.TRUNCATED;
    } catch (IOException e) {
      return true;
    }
  }

  private void judge(List<FoundObject> sameUid) {
    FoundObject first = sameUid.get(0);
    List<FoundObject> others = sameUid.subList(1, sameUid.size());
    boolean same = others.stream().allMatch(other -> sameContent(first, other));
    if (same) {
      used.add(first);
      others.forEach(
          other -> note(FindingKind.DUPLICATE_SAME, other, "the same object as " + first.path()));
      return;
    }
    for (FoundObject object : sameUid) {
      note(
          FindingKind.DUPLICATE_DIFFERENT,
          object,
          sameUid.size() + " different objects claim the SOP Instance UID " + first.sopUid());
    }
  }

  private boolean sameContent(FoundObject a, FoundObject b) {
    try {
      return FileDigest.sha256(a.path()).equals(FileDigest.sha256(b.path()))
          || ContentComparison.same(
              ParsedObject.of(a.path(), parser), ParsedObject.of(b.path(), parser));
    } catch (IOException | ObjectDefect e) {
      return false;
    }
  }

  /** No scan is lost with an object that was made of one. */
  private void note(FindingKind kind, FoundObject object, String detail) {
    boolean derived = object.kind().derived().isPresent() && object.kind() != SopKind.THICKNESS_MAP;
    FindingKind said =
        derived && kind == FindingKind.DUPLICATE_DIFFERENT ? FindingKind.DERIVED_NOT_READ : kind;
    findings.add(new Finding(said, object.path().toString(), detail));
  }
}

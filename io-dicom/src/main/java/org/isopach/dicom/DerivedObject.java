package org.isopach.dicom;

import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * An object that says what somebody found in a scan, as far as its attributes tell: no pixel was
 * read for it. Its content is read on demand, see {@link org.isopach.dicom.read.DerivedContents}.
 *
 * @param kind what it is
 * @param identity whose, when, and its own SOP Instance UID
 * @param eyes the eyes it says something of; empty when it names none
 * @param software Manufacturer, model and software version; empty when not stated
 * @param location where the file lies, as the user named it
 * @param sources SOP Instance UIDs of the images it was made from; empty when it names none
 * @param frameOfReferenceUid what its coordinates are counted from; empty when not stated
 * @param holds the things it has a value for, in its own order
 */
public record DerivedObject(
    DerivedKind kind,
    ScanIdentity identity,
    Set<Laterality> eyes,
    String software,
    String location,
    Set<String> sources,
    String frameOfReferenceUid,
    List<Held> holds) {

  /**
   * One thing an object has a value for.
   *
   * @param theirs what it is in the object's own words, with its code
   * @param ours what we call the same thing; empty when we have nothing of that definition
   */
  public record Held(String theirs, String ours) {
    public Held {
      Objects.requireNonNull(theirs, "theirs");
      Objects.requireNonNull(ours, "ours");
    }
  }

  public DerivedObject {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(identity, "identity");
    Set<Laterality> sides = EnumSet.noneOf(Laterality.class);
    sides.addAll(eyes);
    eyes = Collections.unmodifiableSet(sides);
    Objects.requireNonNull(software, "software");
    Objects.requireNonNull(location, "location");
    sources = Collections.unmodifiableSortedSet(new TreeSet<>(sources));
    Objects.requireNonNull(frameOfReferenceUid, "frameOfReferenceUid");
    holds = List.copyOf(holds);
  }

  /** Returns the object in one line, without its place. */
  public String title() {
    String maker = software.isEmpty() ? "" : " by " + software;
    return kind.words() + " " + identity.sopUid() + maker;
  }
}

package org.isopach.dicom.read;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.cross.FieldPlace;
import org.isopach.analysis.cross.FieldValues;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.data.Code;

/**
 * A map in µm as an object has it: its own pixels, and every way it says where they lie.
 *
 * @param quantity what it says it shows
 * @param words what it shows in its own words; may be empty
 * @param laterality which eye; empty when it does not say
 * @param sources SOP Instance UIDs of the images it was made from, in the object's order
 * @param values µm, pixel by pixel
 * @param anchors where the pixels lie, in the order of trust
 * @param noPlace why there is no anchor; empty when there is one
 */
public record PlacedMap(
    MapQuantity quantity,
    String words,
    Optional<Laterality> laterality,
    Set<String> sources,
    FieldValues values,
    List<Anchor> anchors,
    String noPlace) {

  /** A way to say where pixels lie. */
  public sealed interface Anchor {}

  /**
   * On a fundus image, by the outer corners of the first and the last pixel, in pixels of the image
   * from the outer corner of its own first.
   */
  public record OnImage(
      String imageUid, double firstRow, double firstColumn, double lastRow, double lastColumn)
      implements Anchor {}

  /** In a patient-relative frame of reference: fundus x = +X, fundus y = -Z. */
  public record InFrame(String frameUid, FieldPlace place) implements Anchor {}

  /** From the fovea that the object states. */
  public record FromFovea(FieldPlace place) implements Anchor {}

  public PlacedMap {
    Objects.requireNonNull(quantity, "quantity");
    Objects.requireNonNull(laterality, "laterality");
    sources = Collections.unmodifiableSet(new LinkedHashSet<>(sources));
    Objects.requireNonNull(values, "values");
    anchors = List.copyOf(anchors);
    Objects.requireNonNull(noPlace, "noPlace");
  }

  /** Returns the code of what it shows; empty when it has none. */
  public Optional<Code> definition() {
    return quantity.code();
  }

  /** Returns what it shows, with its codes where it has any. */
  public String title() {
    return quantity.code().isPresent() ? quantity.title() : ("not stated " + words).strip();
  }
}

package org.isopach.dicom.read;

import java.util.List;
import java.util.Optional;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * The per-frame and shared functional groups of a multi-frame object (DICOM PS3.3, section
 * C.7.6.16). A macro in the frame's own item goes before the shared one.
 */
public final class FunctionalGroups {
  private final Dataset shared;
  private final List<Dataset> perFrame;

  private FunctionalGroups(Dataset shared, List<Dataset> perFrame) {
    this.shared = shared;
    this.perFrame = perFrame;
  }

  /** Returns the groups of an object; either or both may be absent from it. */
  public static FunctionalGroups of(Dataset object) {
    List<Dataset> shared = object.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE);
    return new FunctionalGroups(
        shared.isEmpty() ? Dataset.builder().build() : shared.get(0),
        object.items(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE));
  }

  /** Returns the number of items in the per-frame sequence. */
  public int perFrameItems() {
    return perFrame.size();
  }

  /** Returns all items of a macro's sequence for a 0-based frame; none when it is absent. */
  public List<Dataset> macroItems(int frame, int sequenceTag) {
    if (frame < perFrame.size() && perFrame.get(frame).has(sequenceTag)) {
      return perFrame.get(frame).items(sequenceTag);
    }
    return shared.items(sequenceTag);
  }

  /** Returns the first item of a macro's sequence for a 0-based frame. */
  public Optional<Dataset> macro(int frame, int sequenceTag) {
    return macroItems(frame, sequenceTag).stream().findFirst();
  }
}

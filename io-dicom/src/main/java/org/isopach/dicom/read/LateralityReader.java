package org.isopach.dicom.read;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Which eye an object is of. Frame Laterality (0020,9072), Image Laterality (0020,0062) and
 * Laterality (0020,0060) may each say so; all that are present must agree.
 */
final class LateralityReader {
  private LateralityReader() {}

  /** Returns the eye, or empty with a finding. */
  static Optional<Laterality> read(
      Dataset object, FunctionalGroups groups, int frames, Remarks remarks) {
    Map<String, String> stated = new LinkedHashMap<>();
    for (int f = 0; f < frames; f++) {
      String number = "Frame Laterality of frame " + (f + 1);
      groups
          .macro(f, Tags.FRAME_ANATOMY_SEQUENCE)
          .flatMap(item -> item.text(Tags.FRAME_LATERALITY))
          .ifPresent(code -> stated.putIfAbsent(code, number));
    }
    note(object, Tags.IMAGE_LATERALITY, "Image Laterality", stated);
    note(object, Tags.LATERALITY, "Laterality", stated);
    return decide(stated, remarks);
  }

  private static void note(Dataset object, int tag, String name, Map<String, String> stated) {
    object.text(tag).ifPresent(code -> stated.putIfAbsent(code, name));
  }

  private static Optional<Laterality> decide(Map<String, String> stated, Remarks remarks) {
    Set<String> words = new LinkedHashSet<>();
    stated.forEach((code, name) -> words.add(name + " is \"" + code + "\""));
    if (stated.size() > 1) {
      remarks.add(FindingKind.LATERALITY_CONTRADICTION, String.join(", ", words));
      return Optional.empty();
    }
    Optional<Laterality> eye = stated.keySet().stream().findFirst().flatMap(Laterality::ofCode);
    if (eye.isEmpty()) {
      remarks.add(
          FindingKind.NO_LATERALITY,
          stated.isEmpty()
              ? "neither Frame, Image nor series Laterality has a value"
              : String.join(", ", words) + ", which is not one eye");
    }
    return eye;
  }
}

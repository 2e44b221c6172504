package org.isopach.dicom.deidentify;

import java.util.List;
import java.util.Set;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.read.ParsedObject;

/** Which objects can be de-identified by attributes alone. */
final class Admission {
  private static final String ROOT = "1.2.840.10008.5.1.4.1.1.";
  private static final String REGISTRATION = ROOT + "66.1";

  /** Their IODs fix Burned In Annotation to NO, or hold no picture of a screen. */
  private static final Set<String> TEXT_FREE =
      Set.of(ROOT + "77.1.5.4", ROOT + "81.1", ROOT + "66.4", ROOT + "66.8", ROOT + "66.7");

  /** Photographs and en face images: they must say themselves that no text is burned in. */
  private static final Set<String> STATING =
      Set.of(
          ROOT + "77.1.5.1", ROOT + "77.1.5.2", ROOT + "77.1.5.7", ROOT + "30", ROOT + "77.1.5.8");

  private static final int RECOGNIZABLE = 0x00280302;
  private static final int ENCAPSULATED_DOCUMENT = 0x00420011;
  private static final int CONTENT_SEQUENCE = 0x0040A730;
  private static final List<Integer> FLOAT_PIXELS = List.of(0x7FE00008, 0x7FE00009);

  private Admission() {}

  static void check(ParsedObject object) throws Refusal {
    Dataset data = object.attributes();
    String sopClass = data.text(Tags.SOP_CLASS_UID).orElse("");
    if (data.has(ENCAPSULATED_DOCUMENT)
        || data.has(CONTENT_SEQUENCE)
        || sopClass.startsWith(ROOT + "104.")
        || sopClass.startsWith(ROOT + "88.")) {
      throw new Refusal(
          "documents and structured reports hold free text; cleaning it is not offered");
    }
    boolean stating = STATING.contains(sopClass);
    if (!stating && !TEXT_FREE.contains(sopClass) && !sopClass.equals(REGISTRATION)) {
      throw new Refusal("objects of this class are not de-identified");
    }
    if (data.text(Tags.SOP_INSTANCE_UID).isEmpty()) {
      throw new Refusal("the object has no SOP Instance UID");
    }
    String burned = data.text(Tags.BURNED_IN_ANNOTATION).orElse("");
    if (!burned.equals("NO") && !burned.isEmpty()) {
      throw new Refusal("text is burned into the pixels, by Burned In Annotation (0028,0301)");
    }
    if (stating && burned.isEmpty()) {
      throw new Refusal(
          "the object does not say that no text is burned into it, Burned In Annotation (0028,0301)");
    }
    if (data.text(RECOGNIZABLE).filter(value -> !value.equals("NO")).isPresent()) {
      throw new Refusal("the person is recognizable, by Recognizable Visual Features (0028,0302)");
    }
    boolean floats = FLOAT_PIXELS.stream().anyMatch(data::has);
    if (!sopClass.equals(REGISTRATION) && object.pixels().isEmpty() && !floats) {
      throw new Refusal("there are no pixel data, or more than can be held");
    }
  }
}

package org.isopach.dicom.deidentify;

import java.util.List;
import java.util.Set;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.network.Uids;
import org.isopach.dicom.read.HeaderParser;
import org.isopach.dicom.read.ParsedObject;

/** Which objects can be de-identified by attributes alone. */
final class Admission {
  private static final String ROOT = "1.2.840.10008.5.1.4.1.1.";
  private static final String TOMOGRAPHY = ROOT + "77.1.5.4";
  private static final String THICKNESS_MAP = ROOT + "81.1";
  private static final String SEGMENTATION = ROOT + "66.4";
  private static final String LABEL_MAP = ROOT + "66.7";
  private static final String HEIGHT_MAP = ROOT + "66.8";
  private static final String PARAMETRIC_MAP = ROOT + "30";
  private static final String PHOTOGRAPH_8 = ROOT + "77.1.5.1";
  private static final String PHOTOGRAPH_16 = ROOT + "77.1.5.2";
  private static final String EN_FACE = ROOT + "77.1.5.7";
  private static final String SECTION_ANALYSIS = ROOT + "77.1.5.8";
  private static final String REGISTRATION = ROOT + "66.1";
  private static final String GRID_REPORT = ROOT + "79.1";

  /** Their IODs fix Burned In Annotation to NO, or hold no picture of a screen. */
  private static final Set<String> TEXT_FREE =
      Set.of(TOMOGRAPHY, THICKNESS_MAP, SEGMENTATION, HEIGHT_MAP, LABEL_MAP);

  /**
   * Pictures: they must say themselves that no text is burned in, unless their pixels are floats.
   */
  private static final Set<String> STATING =
      Set.of(PHOTOGRAPH_8, PHOTOGRAPH_16, EN_FACE, PARAMETRIC_MAP, SECTION_ANALYSIS);

  private static final Set<String> WITHOUT_PIXELS = Set.of(REGISTRATION, GRID_REPORT);

  private static final int RECOGNIZABLE = 0x00280302;
  private static final int ENCAPSULATED_DOCUMENT = 0x00420011;
  private static final int CONTENT_SEQUENCE = 0x0040A730;
  private static final List<Integer> FLOAT_PIXELS = List.of(0x7FE00008, 0x7FE00009);

  private Admission() {}

  /** Returns whether objects of a class are copied at all. */
  static boolean copies(String sopClass) {
    return TEXT_FREE.contains(sopClass)
        || STATING.contains(sopClass)
        || WITHOUT_PIXELS.contains(sopClass);
  }

  static void check(ParsedObject object, HeaderParser parser) throws Refusal {
    Dataset data = object.attributes();
    String sopClass = data.text(Tags.SOP_CLASS_UID).orElse("");
    checkClass(data, sopClass, name(sopClass, parser));
    if (data.text(Tags.SOP_INSTANCE_UID).isEmpty()) {
      throw new Refusal("the object has no SOP Instance UID");
    }
    if (!Uids.sound(data.text(Tags.SOP_INSTANCE_UID).orElseThrow())) {
      throw new Refusal("its SOP Instance UID has not the form of a UID (PS3.5, 9.1)");
    }
    if (WITHOUT_PIXELS.contains(sopClass)) {
      if (object.pixels().isPresent()) {
        throw new Refusal("the object has pixel data that its class does not know");
      }
      return;
    }
    boolean floats =
        FLOAT_PIXELS.stream().anyMatch(data::has)
            || object.pixels().filter(pixels -> pixels.floats()).isPresent();
    if (object.pixels().isEmpty() && !floats) {
      throw new Refusal("there are no pixel data, or of a kind that is not read");
    }
    checkPicture(data, STATING.contains(sopClass) && !floats);
  }

  private static void checkClass(Dataset data, String sopClass, String name) throws Refusal {
    if (copies(sopClass)) {
      boolean text = data.has(CONTENT_SEQUENCE) && !sopClass.equals(GRID_REPORT);
      if (text || data.has(ENCAPSULATED_DOCUMENT)) {
        throw new Refusal(name + ": it holds a document or report that its class does not know");
      }
      return;
    }
    if (data.has(ENCAPSULATED_DOCUMENT) || sopClass.startsWith(ROOT + "104.")) {
      throw new Refusal(name + ": documents cannot be cleaned; leave them out");
    }
    if (data.has(CONTENT_SEQUENCE) || sopClass.startsWith(ROOT + "88.")) {
      throw new Refusal(name + ": of structured reports only macular grid reports are cleaned");
    }
    throw new Refusal(name + ": this class is not de-identified");
  }

  private static void checkPicture(Dataset data, boolean stating) throws Refusal {
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
  }

  /** Returns the standard's name of a class; another UID could itself be an identifier. */
  private static String name(String sopClass, HeaderParser parser) {
    String name = parser.sopClassName(sopClass);
    return name.equals(sopClass) ? "class unknown" : name;
  }
}

package org.isopach.dicom.toolkit;

import com.pixelmed.dicom.Attribute;
import com.pixelmed.dicom.AttributeFactory;
import com.pixelmed.dicom.AttributeList;
import com.pixelmed.dicom.AttributeTag;
import com.pixelmed.dicom.AttributeTagAttribute;
import com.pixelmed.dicom.DicomException;
import com.pixelmed.dicom.SequenceAttribute;
import com.pixelmed.dicom.SpecificCharacterSet;
import java.io.UnsupportedEncodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;

/** Turns neutral elements into the toolkit's attributes, values unchanged. */
final class AttributeMaker {
  private static final int SPECIFIC_CHARACTER_SET = 0x00080005;
  private static final int META_GROUP = 0x0002;

  private AttributeMaker() {}

  /**
   * Returns the toolkit's list of a data set, group lengths and file meta information left out.
   *
   * @throws DicomException when a value cannot be encoded as its representation or character set
   */
  static AttributeList list(Dataset dataset) throws DicomException {
    return list(dataset, null);
  }

  private static AttributeList list(Dataset dataset, SpecificCharacterSet outer)
      throws DicomException {
    List<String> terms = dataset.texts(SPECIFIC_CHARACTER_SET);
    SpecificCharacterSet characters =
        terms.isEmpty() ? outer : new SpecificCharacterSet(terms.toArray(String[]::new));
    AttributeList list = new AttributeList();
    for (Element element : dataset.elements()) {
      boolean groupLength = (element.tag() & 0xffff) == 0;
      if (!groupLength && element.tag() >>> 16 != META_GROUP) {
        list.put(attribute(element, characters));
      }
    }
    return list;
  }

  static AttributeTag tag(int tag) {
    return new AttributeTag(tag >>> 16, tag & 0xffff);
  }

  static String name(int tag) {
    return String.format("(%04X,%04X)", tag >>> 16, tag & 0xffff);
  }

  private static Attribute attribute(Element element, SpecificCharacterSet characters)
      throws DicomException {
    if (element instanceof Element.Text text) {
      return text(text, characters);
    }
    if (element instanceof Element.Numbers numbers) {
      return numbers(numbers);
    }
    if (element instanceof Element.Sequence sequence) {
      SequenceAttribute made = new SequenceAttribute(tag(sequence.tag()));
      for (Dataset item : sequence.items()) {
        made.addItem(list(item, characters));
      }
      return made;
    }
    Element.Bytes bytes = (Element.Bytes) element;
    return new RawAttribute(tag(bytes.tag()), bytes.vr(), bytes.value().toByteArray());
  }

  private static Attribute text(Element.Text text, SpecificCharacterSet characters)
      throws DicomException {
    AttributeTag tag = tag(text.tag());
    if (text.vr() == Vr.AT) {
      AttributeTagAttribute made = new AttributeTagAttribute(tag);
      for (String value : text.values()) {
        int pointed = Integer.parseUnsignedInt(value, 16);
        made.addValue(pointed >>> 16, pointed & 0xffff);
      }
      return made;
    }
    Attribute made = AttributeFactory.newAttribute(tag, code(text.vr()), characters);
    for (String value : text.values()) {
      requireEncodable(text.tag(), value, characters);
      made.addValue(value);
    }
    return made;
  }

  private static void requireEncodable(int tag, String value, SpecificCharacterSet characters)
      throws DicomException {
    boolean ascii = StandardCharsets.US_ASCII.newEncoder().canEncode(value);
    if (!ascii && !survives(value, characters)) {
      throw new DicomException(
          "the text of "
              + name(tag)
              + " has characters outside its Specific Character Set: "
              + value);
    }
  }

  private static boolean survives(String value, SpecificCharacterSet characters)
      throws DicomException {
    if (characters == null) {
      return false;
    }
    try {
      byte[] bytes = characters.translateStringToByteArray(value);
      return value.equals(characters.translateByteArrayToString(bytes, 0, bytes.length));
    } catch (UnsupportedEncodingException e) {
      throw new DicomException("unsupported character set: " + e.getMessage());
    }
  }

  private static Attribute numbers(Element.Numbers numbers) throws DicomException {
    Attribute made = AttributeFactory.newAttribute(tag(numbers.tag()), code(numbers.vr()));
    for (double value : numbers.values()) {
      switch (numbers.vr()) {
        case FD -> made.addValue(value);
        case FL -> made.addValue((float) value);
        case US -> made.addValue((int) whole(numbers, value, 0, 0xffff));
        case SS -> made.addValue((int) whole(numbers, value, Short.MIN_VALUE, Short.MAX_VALUE));
        case UL -> made.addValue(whole(numbers, value, 0, 0xffffffffL));
        case SL -> made.addValue(whole(numbers, value, Integer.MIN_VALUE, Integer.MAX_VALUE));
        case SV -> made.addValue(whole(numbers, value, -(1L << 53), 1L << 53));
        case UV -> made.addValue(whole(numbers, value, 0, 1L << 53));
        default -> throw new DicomException(name(numbers.tag()) + " is not a binary number");
      }
    }
    return made;
  }

  private static long whole(Element.Numbers numbers, double value, long least, long most)
      throws DicomException {
    if (value != Math.rint(value) || value < least || value > most) {
      throw new DicomException(
          "the value of " + name(numbers.tag()) + " does not fit " + numbers.vr() + ": " + value);
    }
    return (long) value;
  }

  private static byte[] code(Vr vr) {
    return vr.name().getBytes(StandardCharsets.US_ASCII);
  }
}

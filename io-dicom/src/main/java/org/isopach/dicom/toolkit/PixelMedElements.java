package org.isopach.dicom.toolkit;

import com.pixelmed.dicom.Attribute;
import com.pixelmed.dicom.AttributeTag;
import com.pixelmed.dicom.AttributeTagAttribute;
import com.pixelmed.dicom.DicomException;
import com.pixelmed.dicom.StringAttribute;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.dicom.data.ByteString;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Vr;

/** Converts the toolkit's attributes, but for sequences, to neutral elements. */
final class PixelMedElements {
  private PixelMedElements() {}

  /** Returns the element of an attribute, or empty when its value representation is unknown. */
  static Optional<Element> convert(int tag, Attribute attribute) throws DicomException {
    Optional<Vr> known = vr(attribute.getVRAsString());
    if (known.isEmpty()) {
      return Optional.empty();
    }
    Vr vr = known.get();
    return Optional.of(
        switch (vr) {
          case FL, FD, SL, SS, UL, US, SV, UV -> numbers(tag, vr, attribute);
          case AT -> tags(tag, attribute);
          case OB, OD, OF, OL, OV, OW, UN -> bytes(tag, vr, attribute);
          default -> text(tag, vr, attribute);
        });
  }

  private static Optional<Vr> vr(String name) {
    for (Vr vr : Vr.values()) {
      if (vr.name().equals(name)) {
        return Optional.of(vr);
      }
    }
    return Optional.empty();
  }

  private static Element numbers(int tag, Vr vr, Attribute attribute) throws DicomException {
    double[] values = attribute.getVL() == 0 ? null : attribute.getDoubleValues();
    List<Double> list = new ArrayList<>();
    if (values != null) {
      for (double value : values) {
        list.add(value);
      }
    }
    return new Element.Numbers(tag, vr, list);
  }

  private static Element tags(int tag, Attribute attribute) throws DicomException {
    List<String> list = new ArrayList<>();
    AttributeTag[] values = ((AttributeTagAttribute) attribute).getAttributeTagValues();
    if (values != null) {
      for (AttributeTag value : values) {
        list.add(String.format(Locale.ROOT, "%04X%04X", value.getGroup(), value.getElement()));
      }
    }
    return new Element.Text(tag, Vr.AT, list);
  }

  private static Element bytes(int tag, Vr vr, Attribute attribute) throws DicomException {
    byte[] value = attribute.getVL() == 0 ? null : attribute.getByteValues(false);
    return new Element.Bytes(tag, vr, ByteString.copyOf(value == null ? new byte[0] : value));
  }

  private static Element text(int tag, Vr vr, Attribute attribute) throws DicomException {
    String[] values =
        attribute instanceof StringAttribute
            ? attribute.getOriginalStringValues()
            : attribute.getStringValues();
    List<String> list = new ArrayList<>();
    if (values != null) {
      for (String value : values) {
        list.add(value == null ? "" : unpadded(value));
      }
    }
    boolean blank = list.stream().allMatch(String::isEmpty);
    return new Element.Text(tag, vr, blank ? List.of() : list);
  }

  /** Takes the padding off: spaces on both sides, and zeros at the end (UI). */
  private static String unpadded(String value) {
    int end = value.length();
    while (end > 0 && value.charAt(end - 1) == 0) {
      end--;
    }
    return value.substring(0, end).strip();
  }
}

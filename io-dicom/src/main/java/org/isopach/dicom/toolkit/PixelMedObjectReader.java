package org.isopach.dicom.toolkit;

import com.pixelmed.dicom.Attribute;
import com.pixelmed.dicom.AttributeList;
import com.pixelmed.dicom.AttributeTag;
import com.pixelmed.dicom.DicomException;
import com.pixelmed.dicom.DicomInputStream;
import com.pixelmed.dicom.SOPClassDescriptions;
import com.pixelmed.dicom.SequenceAttribute;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.TransferSyntax;
import org.isopach.dicom.read.HeaderParser;
import org.isopach.dicom.read.ObjectDefect;

/** Parses encoded attributes with the toolkit. Stateless. */
public final class PixelMedObjectReader implements HeaderParser {
  @Override
  public Dataset parse(byte[] encoded, TransferSyntax syntax) throws ObjectDefect {
    AttributeList list = new AttributeList();
    try (DicomInputStream in =
        new DicomInputStream(new ByteArrayInputStream(encoded), uninflated(syntax), false)) {
      list.read(in);
      return dataset(list);
    } catch (IOException | DicomException e) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE, "the attributes cannot be parsed: " + e.getMessage(), e);
    } catch (IndexOutOfBoundsException | IllegalArgumentException | ClassCastException e) {
      throw new ObjectDefect(
          FindingKind.MALFORMED_ATTRIBUTE, "an attribute has an impossible length or value", e);
    }
  }

  @Override
  public String sopClassName(String uid) {
    String name = SOPClassDescriptions.getDescriptionFromUID(uid);
    return name == null || name.isEmpty() ? uid : name;
  }

  private static String uninflated(TransferSyntax syntax) {
    boolean kept =
        syntax == TransferSyntax.IMPLICIT_LITTLE || syntax == TransferSyntax.EXPLICIT_BIG;
    return kept ? syntax.uid() : TransferSyntax.EXPLICIT_LITTLE.uid();
  }

  private static Dataset dataset(AttributeList list) throws DicomException {
    Dataset.Builder builder = Dataset.builder();
    for (Attribute attribute : list.values()) {
      AttributeTag tag = attribute.getTag();
      int key = tag.getGroup() << 16 | tag.getElement();
      if (attribute instanceof SequenceAttribute sequence) {
        Dataset[] items = new Dataset[sequence.getNumberOfItems()];
        for (int i = 0; i < items.length; i++) {
          items[i] = dataset(sequence.getItem(i).getAttributeList());
        }
        builder.items(key, items);
      } else {
        PixelMedElements.convert(key, attribute).ifPresent(builder::put);
      }
    }
    return builder.build();
  }
}

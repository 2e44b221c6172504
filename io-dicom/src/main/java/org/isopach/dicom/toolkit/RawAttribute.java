package org.isopach.dicom.toolkit;

import com.pixelmed.dicom.Attribute;
import com.pixelmed.dicom.AttributeTag;
import com.pixelmed.dicom.DicomException;
import com.pixelmed.dicom.DicomOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.isopach.dicom.data.Vr;

/** A value that is written byte for byte, filled up with one zero byte to an even length. */
final class RawAttribute extends Attribute {
  private final Vr vr;
  private byte[] value;

  RawAttribute(AttributeTag tag, Vr vr, byte[] value) {
    super(tag);
    this.vr = vr;
    this.value = value.length % 2 == 0 ? value : Arrays.copyOf(value, value.length + 1);
    this.valueLength = this.value.length;
    this.valueMultiplicity = value.length == 0 ? 0 : 1;
  }

  @Override
  public byte[] getVR() {
    return vr.name().getBytes(StandardCharsets.US_ASCII);
  }

  @Override
  public void write(DicomOutputStream out) throws DicomException, IOException {
    writeBase(out);
    out.write(value);
  }

  @Override
  public void removeValues() {
    value = new byte[0];
    valueLength = 0;
    valueMultiplicity = 0;
  }
}

package org.isopach.dicom.codec;

/** A native library that decodes grey pictures. */
public enum NativeCodec {
  /** CharLS, for JPEG-LS (ISO/IEC 14495-1). */
  CHARLS(
      "libcharls.so.2",
      "install Debian's libcharls2, or transcode the file with DCMTK: dcmdjpls IN OUT"),

  /** OpenJPEG 2.5 or newer, for high-throughput JPEG 2000 (ISO/IEC 15444-15). */
  OPENJPEG(
      "libopenjp2.so.7",
      "install Debian's libopenjp2-7, 2.5 or newer, or ask the sender for another transfer syntax;"
          + " DCMTK 3.6.7 and GDCM 3.0.21 cannot transcode this one");

  private final String library;
  private final String advice;

  NativeCodec(String library, String advice) {
    this.library = library;
    this.advice = advice;
  }

  String library() {
    return library;
  }

  /** Returns what to do when the library is not there. */
  public String advice() {
    return advice;
  }
}

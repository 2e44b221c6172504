package org.isopach.dicom.pixel;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.FrameSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class FrameMemoryTest {
  private static final int ROWS = 256;
  private static final int COLUMNS = 257;

  private final List<Integer> decoded = new ArrayList<>();

  /** Every combination of size, sign and end of the scale; all values there are. */
  static Stream<PixelFormat> formats() {
    return Stream.of(
            new int[] {8, 8, 7},
            new int[] {16, 16, 15},
            new int[] {16, 12, 11},
            new int[] {8, 7, 6})
        .flatMap(
            bits ->
                Stream.of(true, false)
                    .flatMap(
                        signed ->
                            Stream.of(true, false)
                                .map(inverted -> format(ROWS, bits, signed, inverted))));
  }

  private static PixelFormat format(int rows, int[] bits, boolean signed, boolean inverted) {
    return new PixelFormat(rows, COLUMNS, bits[0], bits[1], bits[2], signed, inverted);
  }

  /** Every value of the format comes back as it was, and is decoded once. */
  @ParameterizedTest
  @MethodSource("formats")
  void givesTheSameValuesAgain(PixelFormat format) throws FrameReadException {
    FrameSource remembered = new FrameMemory().remembering(counted(format), format, 3);
    float[] first = new float[format.framePixels()];
    float[] again = new float[format.framePixels()];
    for (int frame : new int[] {2, 0, 1}) {
      remembered.read(frame, first);
      remembered.read(frame, again);
      assertArrayEquals(first, again);
      assertEquals(value(format, frame, 5), again[5]);
    }
    assertEquals(List.of(2, 0, 1), decoded);
  }

  @Test
  void hasRoomForOneObject() throws FrameReadException {
    PixelFormat format = format(ROWS, new int[] {8, 8, 7}, false, false);
    FrameMemory memory = new FrameMemory();
    FrameSource one = memory.remembering(counted(format), format, 2);
    FrameSource other = memory.remembering(counted(format), format, 2);
    float[] into = new float[format.framePixels()];
    one.read(0, into);
    other.read(1, into);
    other.read(1, into);
    one.read(0, into);
    assertEquals(List.of(0, 1, 0), decoded);
  }

  @Test
  void hasNoRoomForALargeObject() {
    PixelFormat format = format(1024, new int[] {16, 16, 15}, false, false);
    int most = (int) (FrameMemory.MOST_BYTES / format.frameBytes());
    FrameSource source = counted(format);
    assertSame(source, new FrameMemory().remembering(source, format, most + 1));
  }

  /** A frame that cannot be read is refused each time, and keeps no other from being read. */
  @Test
  void doesNotRememberAFailure() throws FrameReadException {
    PixelFormat format = format(ROWS, new int[] {8, 8, 7}, false, false);
    FrameSource broken =
        (frame, into) -> {
          decoded.add(frame);
          if (frame == 1) {
            throw new FrameReadException("damaged", null);
          }
        };
    FrameSource remembered = new FrameMemory().remembering(broken, format, 2);
    float[] into = new float[format.framePixels()];
    remembered.read(0, into);
    assertThrows(FrameReadException.class, () -> remembered.read(1, into));
    assertThrows(FrameReadException.class, () -> remembered.read(1, into));
    remembered.read(0, into);
    assertEquals(List.of(0, 1, 1), decoded);
  }

  private FrameSource counted(PixelFormat format) {
    return (frame, into) -> {
      decoded.add(frame);
      for (int i = 0; i < into.length; i++) {
        into[i] = value(format, frame, i);
      }
    };
  }

  /** Goes through all values the format has, from another one in each frame. */
  private static float value(PixelFormat format, int frame, int pixel) {
    int values = 1 << format.bitsStored();
    return (float) (format.range().low() + (pixel + 31 * frame) % values);
  }
}

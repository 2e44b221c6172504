package org.isopach.report.table;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The oracle is the platform's own exact decimal arithmetic, java.math.BigDecimal. */
class DecimalBytesTest {
  @Test
  void agreesWithExactDecimalArithmetic() throws IOException {
    Random random = new Random(20260101);
    for (int i = 0; i < 200_000; i++) {
      float value = (random.nextFloat() - 0.25f) * (float) Math.pow(10, random.nextInt(8) - 2);
      int decimals = random.nextInt(4);
      assertEquals(exact(value, decimals), written(value, decimals), () -> "of " + value);
    }
  }

  @ParameterizedTest
  @ValueSource(
      floats = {0f, -0f, 0.0005f, 0.125f, 0.375f, 2.5f, 3.5f, -0.0004f, 1023.9995f, 999999f})
  void agreesAtTiesAndEdges(float value) throws IOException {
    for (int decimals = 0; decimals <= 3; decimals++) {
      assertEquals(exact(value, decimals), written(value, decimals));
    }
  }

  @ParameterizedTest
  @CsvSource({"0.125,2,0.12", "0.375,2,0.38", "12.5,3,12.500", "-0.0004,3,0.000", "7,0,7"})
  void writesWhatAReaderExpects(float value, int decimals, String expected) throws IOException {
    assertEquals(expected, written(value, decimals));
  }

  @ParameterizedTest
  @ValueSource(floats = {Float.NaN, Float.POSITIVE_INFINITY, 1e9f})
  void refusesWhatIsNoNumber(float value) {
    assertThrows(IllegalArgumentException.class, () -> written(value, 3));
  }

  private static String exact(float value, int decimals) {
    return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_EVEN).toPlainString();
  }

  private static String written(float value, int decimals) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    DecimalBytes out = new DecimalBytes(bytes);
    out.number(value, decimals);
    out.flush();
    return bytes.toString(StandardCharsets.US_ASCII);
  }
}

package org.isopach.dicom.web;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MultipartReaderTest {
  /** The example of RFC 2046 (1996), section 5.1.1. */
  @Test
  void readsTheExampleOfTheRfc() throws IOException {
    String example =
        String.join(
            "\r\n",
            "This is the preamble.  It is to be ignored, though it",
            "is a handy place for composition agents to include an",
            "explanatory note to non-MIME conformant readers.",
            "",
            "--simple boundary",
            "",
            "This is implicitly typed plain US-ASCII text.",
            "It does NOT end with a linebreak.",
            "--simple boundary",
            "Content-type: text/plain; charset=us-ascii",
            "",
            "This is explicitly typed plain US-ASCII text.",
            "It DOES end with a linebreak.",
            "",
            "--simple boundary--",
            "",
            "This is the epilogue.  It is also to be ignored.");
    MultipartReader reader = reader(example, "simple boundary");

    assertTrue(reader.next());
    assertEquals("", reader.header("Content-Type"));
    assertEquals(
        "This is implicitly typed plain US-ASCII text.\r\nIt does NOT end with a linebreak.",
        new String(reader.body().readAllBytes(), StandardCharsets.US_ASCII));
    assertTrue(reader.next());
    assertEquals("text/plain; charset=us-ascii", reader.header("Content-Type"));
    assertEquals(
        "This is explicitly typed plain US-ASCII text.\r\nIt DOES end with a linebreak.\r\n",
        new String(reader.body().readAllBytes(), StandardCharsets.US_ASCII));
    assertFalse(reader.next());
  }

  /** Bodies full of beginnings of the boundary, in pieces of every length. */
  @Test
  void givesBackEveryByteWhateverThePieces() throws IOException {
    Random random = new Random(7);
    for (int turn = 0; turn < 40; turn++) {
      byte[][] bodies = new byte[3][];
      byte[] all = new byte[0];
      for (int i = 0; i < bodies.length; i++) {
        bodies[i] = body(random, turn < 35 ? random.nextInt(300) : 150_000);
        byte[] head = ScriptedServer.bytes("--b-b\r\nA: " + i + "\r\n\r\n");
        all = WebObjects.joined(all, head, bodies[i], ScriptedServer.bytes("\r\n"));
      }
      all = WebObjects.joined(all, ScriptedServer.bytes("--b-b--"));
      MultipartReader reader = new MultipartReader(pieces(all, random), "b-b");
      for (int i = 0; i < bodies.length; i++) {
        assertTrue(reader.next());
        assertEquals(String.valueOf(i), reader.header("a"));
        assertArrayEquals(bodies[i], reader.body().readAllBytes());
      }
      assertFalse(reader.next());
    }
  }

  private static byte[] body(Random random, int length) {
    byte[] body = new byte[length];
    byte[] likely = ScriptedServer.bytes("\r\n--b-B");
    for (int i = 0; i < length; i++) {
      body[i] = likely[random.nextInt(likely.length - 1)];
      if (i > 0 && body[i] == 'b' && body[i - 1] == '-') {
        body[i] = 'B';
      }
    }
    return body;
  }

  private static InputStream pieces(byte[] all, Random random) {
    return new FilterInputStream(new ByteArrayInputStream(all)) {
      @Override
      public int read(byte[] bytes, int offset, int length) throws IOException {
        return super.read(bytes, offset, Math.min(length, 1 + random.nextInt(20)));
      }
    };
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "no part at all",
        "--b-b",
        "--b-b\r\nA: 1",
        "--b-b\r\nA: 1\r\n\r\nbody",
        "--b-b\r\nA: 1\r\n\r\nbody\r\n--b-b",
        "--b-b and more\r\n\r\nbody\r\n--b-b--",
        "--b-b\r\nno colon\r\n\r\nbody\r\n--b-b--"
      })
  void refusesWhatHasNoSoundEnd(String body) throws IOException {
    MultipartReader reader = reader(body, "b-b");

    assertThrows(
        WebException.class,
        () -> {
          while (reader.next()) {
            reader.body().readAllBytes();
          }
        });
  }

  @Test
  void boundsHeadsAndWhatComesBeforeTheFirstPart() throws IOException {
    for (String endless :
        new String[] {
          "x".repeat(200_000),
          "--b-b\r\n" + "A: 1\r\n".repeat(10_000),
          "--b-b\r\nA: " + "1".repeat(40_000)
        }) {
      WebException refused = assertThrows(WebException.class, () -> reader(endless, "b-b").next());
      assertEquals(WebException.Kind.LASTING, WebException.of(refused));
    }
  }

  private static MultipartReader reader(String body, String boundary) throws IOException {
    return new MultipartReader(new ByteArrayInputStream(ScriptedServer.bytes(body)), boundary);
  }
}

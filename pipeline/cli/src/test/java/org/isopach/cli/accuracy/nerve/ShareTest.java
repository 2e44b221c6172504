package org.isopach.cli.accuracy.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Wilson's interval against published worked examples. */
class ShareTest {
  /** Newcombe, Statistics in Medicine 1998;17:857, table I (from memory): 81 of 263. */
  @Test
  void intervalIsThePublishedOne() {
    Share share = new Share(81, 263);
    assertEquals(0.2553, share.low(), 5e-5);
    assertEquals(0.3662, share.high(), 5e-5);
  }

  /** The same table: 0 of 20. */
  @Test
  void noneOfTwentyMayBeSixteenPercent() {
    Share share = new Share(0, 20);
    assertEquals(0, share.low(), 1e-12);
    assertEquals(0.1611, share.high(), 5e-5);
  }
}

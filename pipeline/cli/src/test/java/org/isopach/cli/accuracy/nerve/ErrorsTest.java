package org.isopach.cli.accuracy.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.isopach.cli.page.Markdown;
import org.junit.jupiter.api.Test;

/** Figures of small sets, worked out by hand. */
class ErrorsTest {
  private static final Errors SOME = new Errors(List.of(1.0, -3.0, Double.NaN, 5.0));

  @Test
  void missingOnesAreCountedAndLeftOut() {
    assertEquals(3, SOME.count());
    assertEquals(1, SOME.missing());
  }

  @Test
  void meansAreOfTheOthers() {
    assertEquals(1, SOME.bias(), 1e-12);
    assertEquals(3, SOME.meanAbsolute(), 1e-12);
    assertEquals(5, SOME.worst(), 1e-12);
    assertEquals(4, SOME.sd(), 1e-12, "squares 0 + 16 + 16 over 2");
    assertEquals("2 of 3 (67 %)", SOME.withinWords(3));
  }

  @Test
  void nothingMeetsNoBar() {
    Errors none = new Errors(List.of(Double.NaN));
    Markdown page = new Markdown();
    new BarTable().errors("depth", none, 1, "µm", 3).addTo(page);
    assertTrue(page.toString().contains("**no**"), page.toString());
    assertTrue(page.toString().contains("1 missing"), page.toString());
  }

  @Test
  void limitItselfIsMet() {
    Markdown page = new Markdown();
    new BarTable().errors("depth", new Errors(List.of(3.0, -3.0)), 1, "µm", 3).addTo(page);
    assertTrue(page.toString().contains("| yes |"), page.toString());
  }

  @Test
  void worstEyesComeFirstAndMissingOnesBeforeAll() {
    Markdown page = new Markdown();
    new BarTable().worst("eyes", List.of(7L, 8L, 9L), List.of(1.0, Double.NaN, 2.0)).addTo(page);
    assertTrue(page.toString().contains("8 (–), 9 (2.0), 7 (1.0)"), page.toString());
  }
}

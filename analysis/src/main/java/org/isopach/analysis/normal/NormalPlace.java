package org.isopach.analysis.normal;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.isopach.analysis.stat.ConfidenceInterval;

/** Where a value lies among those of a reference group, or why that is not said. */
public sealed interface NormalPlace {
  /** Returns one sentence without a full stop. */
  String words();

  /**
   * A value with its percentile.
   *
   * @param percentile from 0 to 100
   * @param interval its 95 % interval, from 0 to 100
   * @param z the value less the group's mean at the eye's age and size, in standard deviations
   * @param meanUm that mean in µm
   * @param words the sentence, with the group's name and size
   * @param notes what is not accounted for; the first says that the figure is indicative
   * @param row the row it was judged by
   */
  record Placed(
      double percentile,
      ConfidenceInterval interval,
      double z,
      double meanUm,
      String words,
      List<String> notes,
      ReferenceRow row)
      implements NormalPlace {
    public Placed {
      Objects.requireNonNull(interval, "interval");
      Objects.requireNonNull(words, "words");
      notes = List.copyOf(notes);
      Objects.requireNonNull(row, "row");
      if (!(percentile >= 0 && percentile <= 100)) {
        throw new IllegalArgumentException("a percentile lies from 0 to 100, was " + percentile);
      }
    }

    /** Returns this with more that is not accounted for, said last. */
    public Placed noting(List<String> more) {
      return new Placed(
          percentile,
          interval,
          z,
          meanUm,
          words,
          Stream.concat(notes.stream(), more.stream()).toList(),
          row);
    }
  }

  /**
   * A value without a percentile.
   *
   * @param reason the kind of obstacle
   * @param detail the particulars in plain words
   */
  record NotPlaced(Reason reason, String detail) implements NormalPlace {
    public NotPlaced {
      Objects.requireNonNull(reason, "reason");
      Objects.requireNonNull(detail, "detail");
    }

    @Override
    public String words() {
      return "no normal limits: " + detail;
    }
  }

  /** Why a value is not placed. */
  enum Reason {
    /** The value itself is missing. */
    NO_VALUE("no-value"),
    /** The table has no row of such a measure. */
    NO_REFERENCE("no-reference"),
    /** It has rows of the measure, but not of the sector or scheme. */
    SECTOR_UNKNOWN("sector-unknown"),
    BOUNDARIES_DIFFER("boundaries-differ"),
    ANGLE_ZERO_DIFFERS("angle-zero-differs"),
    DIAMETER_DIFFERS("diameter-differs"),
    GROUP_TOO_SMALL("group-too-small"),
    DEVICE_NOT_COVERED("device-not-covered"),
    AGE_UNKNOWN("age-unknown"),
    AGE_OUTSIDE("age-outside"),
    AXIAL_LENGTH_UNKNOWN("axial-length-unknown"),
    AXIAL_LENGTH_OUTSIDE("axial-length-outside"),
    DISC_AREA_UNKNOWN("disc-area-unknown"),
    /** The table is silent on something that must be stated by a strict rule. */
    SCOPE_NOT_STATED("scope-not-stated");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }
}

package org.isopach.analysis.cross;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * One thing that an object says of a scan, beside ours: one line of the table.
 *
 * @param scan the scan; of an object without one, what the object says of itself
 * @param laterality which eye; empty when not known
 * @param object what says it
 * @param pair what is compared with what
 * @param theirs their value, in the quantity's unit; empty when they have none
 * @param ours ours; empty when we have none
 * @param differences place by place, where that was done
 * @param overlap voxel by voxel, where that was done
 * @param coveredFraction share of ours where theirs has values; empty where it cannot be said
 * @param verdict whether the two may be subtracted
 */
public record CrossLine(
    ScanIdentity scan,
    Optional<Laterality> laterality,
    Source object,
    Pair pair,
    OptionalDouble theirs,
    OptionalDouble ours,
    Optional<Differences> differences,
    Optional<VoxelOverlap> overlap,
    OptionalDouble coveredFraction,
    Verdict verdict) {

  /**
   * The object a line comes from.
   *
   * @param kind what it is, as tables name it
   * @param uid its SOP Instance UID
   * @param software what made it; empty when not stated
   * @param matchedBy how it was matched with the scan; empty when it was not
   * @param placedBy how its pixels were laid on the scan; empty where there is nothing to lay
   */
  public record Source(
      String kind, String uid, String software, String matchedBy, String placedBy) {
    /** Returns the same object laid on the scan in some way. */
    public Source placedBy(String way) {
      return new Source(kind, uid, software, matchedBy, way);
    }
  }

  /**
   * What is compared with what.
   *
   * @param theirs their definition, in their words and with its code
   * @param ours our name of what stands beside it; empty when we have none
   * @param place sector, {@code cells}, {@code ascans} or {@code scan}
   * @param quantity what was measured there
   */
  public record Pair(String theirs, String ours, String place, Quantity quantity) {
    public Pair {
      Objects.requireNonNull(quantity, "quantity");
    }
  }

  /** What can be compared. */
  public enum Quantity {
    THICKNESS("thickness", "um", 3),
    CHANGE("change", "um", 3),
    VOLUME("volume", "mm3", 6),
    DEPTH("depth", "um", 3),
    REGION_VOLUME("region-volume", "nL", 4),
    NONE("", "", 3);

    private final String code;
    private final String unit;
    private final int decimals;

    Quantity(String code, String unit, int decimals) {
      this.code = code;
      this.unit = unit;
      this.decimals = decimals;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }

    /** Returns the unit. */
    public String unit() {
      return unit;
    }

    /** Returns the decimals of tables. */
    public int decimals() {
      return decimals;
    }
  }

  /**
   * Whether two values may be subtracted.
   *
   * @param comparable whether they are of one definition and both there
   * @param reason why not; empty when they may
   * @param remark what a reader of the difference must know; may be empty
   */
  public record Verdict(boolean comparable, String reason, String remark) {
    public Verdict {
      if (comparable != reason.isEmpty()) {
        throw new IllegalArgumentException("a reason belongs to what is not comparable: " + reason);
      }
    }

    /** Returns that they may, with a remark. */
    public static Verdict yes(String remark) {
      return new Verdict(true, "", remark);
    }

    /** Returns that they may not, and why. */
    public static Verdict no(String reason) {
      return new Verdict(false, reason, "");
    }
  }

  /**
   * @throws IllegalArgumentException when a line that may not be compared has differences, or one
   *     that may lacks a value
   */
  public CrossLine {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(object, "object");
    Objects.requireNonNull(pair, "pair");
    Objects.requireNonNull(theirs, "theirs");
    Objects.requireNonNull(ours, "ours");
    Objects.requireNonNull(coveredFraction, "coveredFraction");
    boolean numbers = differences.isPresent() || overlap.isPresent();
    if (!verdict.comparable() && numbers) {
      throw new IllegalArgumentException("no differences of what may not be compared");
    }
    if (verdict.comparable() && !numbers && (theirs.isEmpty() || ours.isEmpty())) {
      throw new IllegalArgumentException("a comparison needs both values");
    }
  }

  /** Returns theirs minus ours; empty unless the two may be subtracted and both are there. */
  public OptionalDouble difference() {
    return verdict.comparable() && theirs.isPresent() && ours.isPresent()
        ? OptionalDouble.of(theirs.getAsDouble() - ours.getAsDouble())
        : OptionalDouble.empty();
  }
}

package org.isopach.align;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.geometry.ScanPath;

/** What comes of looking for a follow-up's vessels on its baseline. */
public sealed interface VesselMatch {
  /**
   * They were found.
   *
   * @param transform from the follow-up's coordinates to the baseline's, motion left out
   * @param placed the follow-up's A-scans in the baseline's coordinates, motion of both scans
   *     allowed for
   * @param correlation of the two shadow pictures, from -1 to 1
   * @param halvesApartMm how far the places found from two halves of the follow-up are apart, root
   *     mean square on a circle of 3 mm radius
   * @param sharedFraction share of the follow-up's A-scans that lie on the baseline
   * @param motionMm root mean square of the frames' shifts of both scans, mm
   * @param placeSdMm standard deviation in mm, each way, of where an A-scan is placed
   */
  record Found(
      FundusTransform transform,
      ScanPath placed,
      double correlation,
      double halvesApartMm,
      double sharedFraction,
      double motionMm,
      double placeSdMm)
      implements VesselMatch {
    public Found {
      Objects.requireNonNull(transform, "transform");
      Objects.requireNonNull(placed, "placed");
    }
  }

  /**
   * They were not, or not surely enough.
   *
   * @param detail why, in plain words
   */
  record NotFound(String detail) implements VesselMatch {
    public NotFound {
      Objects.requireNonNull(detail, "detail");
    }
  }
}

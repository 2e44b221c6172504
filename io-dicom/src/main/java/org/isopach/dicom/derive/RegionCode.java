package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.region.RegionKind;
import org.isopach.dicom.data.Code;

/**
 * How kinds of regions are coded. The standard's context groups as we have them name no fluid of
 * the retina: the codes are our own, under a private scheme (PS3.16, clause 8: designators that
 * begin with 99).
 */
public final class RegionCode {
  /** The designator of our own codes. */
  public static final String SCHEME = "99ISOPACH";

  private RegionCode() {}

  /** Returns the code of a kind. */
  public static Code of(RegionKind kind) {
    return new Code(Byte.toString(kind.label()), SCHEME, words(kind));
  }

  /** Returns the kind of a code of ours, or empty. */
  public static Optional<RegionKind> kind(Code code) {
    for (RegionKind kind : RegionKind.values()) {
      if (of(kind).sameAs(code)) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }

  private static String words(RegionKind kind) {
    return switch (kind) {
      case INTRARETINAL_FLUID -> "Intraretinal fluid";
      case SUBRETINAL_FLUID -> "Subretinal fluid";
      case RPE_ELEVATION -> "Elevation of the retinal pigment epithelium";
      case HYPERREFLECTIVE_MATERIAL -> "Hyperreflective material";
    };
  }
}

package org.isopach.dicom.check;

import java.util.List;
import java.util.Map;

/**
 * What the validator dciodvfy (dicom3tools 1.00~20220618) says of objects that follow the standard.
 *
 * <p>The only place where its complaints are excused. It knows no thickness map, no macular grid
 * report and no height map at all; Pixel Aspect Ratio is type 1 in the map's own table and
 * forbidden at 1:1 by the general pixel module. A tomography it cannot pass: the tomography's own
 * table asks for the three concatenation attributes with fixed values, the general multi-frame
 * module forbids them outside a concatenation, and the validator applies both.
 */
public final class KnownValidatorLimits {
  /** The SOP class of thickness maps. */
  public static final String THICKNESS_MAP = "1.2.840.10008.5.1.4.1.1.81.1";

  /** The SOP class of macular grid reports. */
  public static final String GRID_REPORT = "1.2.840.10008.5.1.4.1.1.79.1";

  /** The SOP class of height maps. */
  public static final String HEIGHT_MAP = "1.2.840.10008.5.1.4.1.1.66.8";

  /** The SOP class of tomographies. */
  public static final String TOMOGRAPHY = "1.2.840.10008.5.1.4.1.1.77.1.5.4";

  private static final String UNSATISFIED =
      "Error - Attribute present when condition unsatisfied \\(which may not be present"
          + " otherwise\\) Type 1C Conditional Element=<";
  private static final String COMMON_GROUPS = "> Module=<MultiFrameFunctionalGroupsCommon>";

  private static final Map<String, List<String>> EXCUSED =
      Map.of(
          GRID_REPORT,
          List.of("Error - Information Object Not found"),
          HEIGHT_MAP,
          List.of("Error - Information Object Not found"),
          THICKNESS_MAP,
          List.of(
              "Error - Information Object Not found",
              "Error - PixelAspectRatio may not be present when it has a ratio of 1:1.*"),
          TOMOGRAPHY,
          List.of(
              UNSATISFIED + "ConcatenationFrameOffsetNumber" + COMMON_GROUPS,
              UNSATISFIED + "InConcatenationNumber" + COMMON_GROUPS,
              "Error - Cannot be less than or equal to one.*InConcatenationTotalNumber.*"));

  private KnownValidatorLimits() {}

  /**
   * Returns the error lines that are not excused for an object's SOP class, in their order.
   *
   * @param sopClassUid the object's SOP class
   * @param output all that the validator printed
   */
  public static List<String> unexcused(String sopClassUid, String output) {
    List<String> excused = EXCUSED.getOrDefault(sopClassUid, List.of());
    return output
        .lines()
        .filter(line -> line.startsWith("Error"))
        .filter(line -> excused.stream().noneMatch(line::matches))
        .toList();
  }
}

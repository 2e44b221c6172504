package org.isopach.dicom.read;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.data.Code;

/**
 * One eye of a Macular Grid Thickness and Volume Report, whoever wrote it.
 *
 * @param laterality which eye
 * @param definition what the thickness lies between, as the report says; empty when it does not
 * @param numbers its measurements
 * @param sources SOP Instance UIDs of the images the values were inferred from
 */
public record MacularGridReport(
    Laterality laterality, Optional<Code> definition, GridNumbers numbers, Set<String> sources) {
  /** The name of the value at the centre point. */
  public static final String CENTRE_POINT = "centre-point";

  public MacularGridReport {
    sources = Set.copyOf(sources);
  }

  /** Returns the values that can be used, as {@link GridNumbers#values}. */
  public Map<String, Double> values() {
    return numbers.values();
  }
}

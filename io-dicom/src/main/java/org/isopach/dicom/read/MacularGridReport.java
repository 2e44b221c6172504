package org.isopach.dicom.read;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.data.Code;

/**
 * One eye of a Macular Grid Thickness and Volume Report, whoever wrote it.
 *
 * @param laterality which eye
 * @param definition what the thickness lies between, as the report says; empty when it does not
 * @param values by our sector names: mean thickness in µm, of {@code total} the volume in mm³, of
 *     {@code centre-point} the thickness there; only what has a value
 * @param sources SOP Instance UIDs of the images the values were inferred from
 */
public record MacularGridReport(
    Laterality laterality,
    Optional<Code> definition,
    Map<String, Double> values,
    Set<String> sources) {
  /** The name of the value at the centre point. */
  public static final String CENTRE_POINT = "centre-point";

  public MacularGridReport {
    values = Map.copyOf(new TreeMap<>(values));
    sources = Set.copyOf(sources);
  }
}

package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.derive.MacularGridCodes;

/**
 * The measurements of one eye of a grid report.
 *
 * @param values by our sector names: mean thickness in µm, of {@code total} the volume in mm³, of
 *     {@code centre-point} the thickness there; only what can be used
 * @param unusable by the same names: why a measurement that is there cannot be used
 * @param others measurements whose codes the grid does not have, such as the volume of a sector, in
 *     the report's order; without those of quality (111691 to 111698, DCM)
 */
public record GridNumbers(
    Map<String, Double> values, Map<String, String> unusable, Set<String> others) {
  private static final Set<String> THICKNESS_UNITS = Set.of("um");
  private static final Set<String> VOLUME_UNITS = Set.of("mm3", "uL");
  private static final String UCUM = "UCUM";
  private static final Pattern QUALITY = Pattern.compile("11169[1-8]");

  public GridNumbers {
    values = Map.copyOf(new TreeMap<>(values));
    unusable = Map.copyOf(new TreeMap<>(unusable));
    others = Collections.unmodifiableSet(new LinkedHashSet<>(others));
  }

  /** Reads the numbers anywhere below a container of findings. */
  static GridNumbers of(Dataset findings) {
    Map<String, Code> wanted = new TreeMap<>(MacularGridCodes.SECTORS);
    wanted.put(MacularGridReport.CENTRE_POINT, MacularGridCodes.CENTRE_POINT);
    wanted.put(SectorGrid.TOTAL, MacularGridCodes.TOTAL_VOLUME);
    Map<String, Double> values = new TreeMap<>();
    Map<String, String> unusable = new TreeMap<>();
    wanted.forEach(
        (name, code) -> {
          List<Dataset> found =
              MacularGridReportReader.all(
                  findings, item -> MacularGridReportReader.named(item, code));
          List<Dataset> measured = new ArrayList<>();
          found.forEach(item -> measured.addAll(item.items(Tags.MEASURED_VALUE_SEQUENCE)));
          if (found.size() > 1 || measured.size() > 1) {
            unusable.put(name, "it stands more than once in the report");
          } else if (!measured.isEmpty()) {
            value(measured.get(0), code, name, values, unusable);
          }
        });
    return new GridNumbers(values, unusable, others(findings));
  }

  private static void value(
      Dataset measured,
      Code code,
      String name,
      Map<String, Double> values,
      Map<String, String> unusable) {
    Optional<Code> unit =
        measured.items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE).stream().findFirst().flatMap(Code::of);
    boolean volume = code.sameAs(MacularGridCodes.TOTAL_VOLUME);
    Set<String> units = volume ? VOLUME_UNITS : THICKNESS_UNITS;
    NumberField number = NumberField.of(measured, Tags.NUMERIC_VALUE);
    if (unit.filter(one -> one.scheme().equals(UCUM) && units.contains(one.value())).isEmpty()) {
      unusable.put(
          name,
          "units differ: the report has "
              + number.words()
              + " in "
              + unit.map(one -> "\"" + one.value() + "\" (" + one.scheme() + ")").orElse("no unit")
              + ", taken is "
              + (volume ? "mm3 or uL" : "um")
              + " (UCUM)");
    } else if (number.values().size() != 1 || !Double.isFinite(number.values().get(0))) {
      unusable.put(name, "its number is " + number.words());
    } else {
      values.put(name, number.values().get(0));
    }
  }

  private static Set<String> others(Dataset findings) {
    Set<String> others = new LinkedHashSet<>();
    for (Dataset item :
        MacularGridReportReader.all(
            findings, one -> !one.items(Tags.MEASURED_VALUE_SEQUENCE).isEmpty())) {
      Optional<Code> name =
          item.items(Tags.CONCEPT_NAME_CODE_SEQUENCE).stream().findFirst().flatMap(Code::of);
      boolean quality =
          name.filter(
                  code -> code.scheme().equals("DCM") && QUALITY.matcher(code.value()).matches())
              .isPresent();
      if (!quality && !MacularGridReportReader.ofGrid(item)) {
        others.add(name.map(Code::toString).orElse("a number without a code"));
      }
    }
    return others;
  }
}

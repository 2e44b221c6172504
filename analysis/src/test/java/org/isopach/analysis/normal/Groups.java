package org.isopach.analysis.normal;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;

/** Reference groups for tests. */
final class Groups {
  static final Layer RNFL = new Layer(Boundary.ILM, Boundary.RNFL_GCL);

  /** Global mean of 239 normal eyes, 93.42 ± 9.30 µm (IOVS article 2380014). */
  static final ReferenceRow SEVERAL_SITES = global("several-sites", 93.42, 9.30, 239);

  private Groups() {}

  static ReferencePlace circle(double diameterMm) {
    return ReferencePlace.circle(
        RNFL, "quadrants", ReferencePlace.GLOBAL, diameterMm, ReferencePlace.HORIZONTAL);
  }

  static ReferencePlace quadrant(String name) {
    return ReferencePlace.circle(RNFL, "quadrants", name, 3.46, ReferencePlace.HORIZONTAL);
  }

  static ReferenceSource source(String id) {
    return new ReferenceSource(
        id, "normal eyes", "a published source", ReferenceSource.Status.READ, "");
  }

  static ReferenceScope scope(StatedRange ages, StatedRange axialLengths, String... models) {
    return new ReferenceScope(ages, axialLengths, Optional.of("spectral-domain"), List.of(models));
  }

  static ReferenceRow global(String id, double mean, double sd, int n) {
    return row(
        id, circle(3.46), mean, sd, n, scope(StatedRange.NOT_STATED, StatedRange.NOT_STATED));
  }

  static ReferenceRow row(
      String id, ReferencePlace place, double mean, double sd, int n, ReferenceScope scope) {
    return new ReferenceRow(
        source(id),
        place,
        mean,
        sd,
        n,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        scope);
  }

  static ReferenceTable table(ReferenceRow... rows) {
    return new ReferenceTable("by-hand", List.of(rows), List.of());
  }

  static NormalJudge judge(ReferenceRow... rows) {
    return new NormalJudge(table(rows), NormalRules.USUAL);
  }

  static NormalEye eye(double age, double axialLength) {
    return new NormalEye(
        OptionalDouble.of(age),
        OptionalDouble.of(axialLength),
        OptionalDouble.empty(),
        Optional.of("Model A"),
        Optional.of("spectral-domain"));
  }
}

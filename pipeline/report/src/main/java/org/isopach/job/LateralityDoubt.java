package org.isopach.job;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;

/**
 * Doubts the stated eye where the retina is clearly thinner towards the nose than away from it.
 *
 * <p>In health the outer nasal sector is thicker than the outer temporal one by about 34 µm, since
 * the nerve fibres converge there (317.4 and 283.8 µm, BMC Ophthalmol 2018;18:169, table 6). That
 * is a statement about populations: disease can turn it round, so the doubt is a note and nothing
 * is refused for it. It is only raised round a foveal pit.
 */
final class LateralityDoubt {
  private static final double DOUBTFUL_MICROMETRES = -15;

  private LateralityDoubt() {}

  /** Returns the doubt about a scan's eye, or empty when there is none or no whole-retina grid. */
  static Optional<Finding> of(List<MappedLayer> layers, String subject) {
    return layers.stream()
        .filter(layer -> layer.map().layer().equals(Layer.ILM_BM))
        .filter(layer -> layer.map().centre().source() == Landmark.Source.FOVEAL_PIT)
        .findFirst()
        .flatMap(layer -> doubt(layer, subject));
  }

  private static Optional<Finding> doubt(MappedLayer layer, String subject) {
    OptionalDouble nasal = mean(layer, "outer-nasal");
    OptionalDouble temporal = mean(layer, "outer-temporal");
    if (nasal.isEmpty() || temporal.isEmpty()) {
      return Optional.empty();
    }
    double excess = nasal.getAsDouble() - temporal.getAsDouble();
    if (excess >= DOUBTFUL_MICROMETRES) {
      return Optional.empty();
    }
    String detail =
        String.format(
            Locale.ROOT,
            "stated as the %s eye, but the retina is %.0f µm thinner towards the nose",
            layer.map().laterality().word(),
            -excess);
    return Optional.of(new Finding(FindingKind.LATERALITY_DOUBTFUL, subject, detail));
  }

  private static OptionalDouble mean(MappedLayer layer, String sector) {
    return layer.table().sectors().stream()
        .filter(Measured.class::isInstance)
        .map(Measured.class::cast)
        .filter(measured -> measured.sector().equals(sector))
        .mapToDouble(Measured::meanUm)
        .findFirst();
  }
}

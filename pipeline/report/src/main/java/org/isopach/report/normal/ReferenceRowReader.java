package org.isopach.report.normal;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.normal.ReferenceAgeing;
import org.isopach.analysis.normal.ReferenceMeasure;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceRow;
import org.isopach.analysis.normal.ReferenceScope;
import org.isopach.analysis.normal.ReferenceSlope;
import org.isopach.analysis.normal.ReferenceSource;
import org.isopach.analysis.normal.StatedRange;

/**
 * Makes rows of cells. Every method reads all its cells, so that all their faults are noted; what
 * it returns is empty when one of them had a fault.
 */
final class ReferenceRowReader {
  static final String LIMITS = "limits";
  static final String AGEING = "ageing";

  private static final List<String> ONLY_LIMITS =
      List.of(
          "mean_um",
          "sd_um",
          "n",
          "mean_age_years",
          "axial_slope_um_per_mm",
          "mean_axial_mm",
          "disc_slope_um_per_mm2",
          "mean_disc_mm2");

  private final ReferenceCells cells;

  ReferenceRowReader(ReferenceCells cells) {
    this.cells = cells;
  }

  Optional<ReferenceRow> limits() {
    Optional<ReferenceSource> source = source();
    Optional<ReferencePlace> place = place();
    Optional<ReferenceScope> scope = scope();
    OptionalDouble mean = needed("mean_um", cells.number("mean_um"));
    OptionalDouble sd = needed("sd_um", cells.positive("sd_um"));
    OptionalDouble n = needed("n", cells.whole("n", 2));
    Optional<ReferenceSlope> age = slope("age_slope_um_per_year", "mean_age_years");
    Optional<ReferenceSlope> axial = slope("axial_slope_um_per_mm", "mean_axial_mm");
    Optional<ReferenceSlope> disc = slope("disc_slope_um_per_mm2", "mean_disc_mm2");
    if (source.isEmpty()
        || place.isEmpty()
        || scope.isEmpty()
        || mean.isEmpty()
        || sd.isEmpty()
        || n.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new ReferenceRow(
            source.get(),
            place.get(),
            mean.getAsDouble(),
            sd.getAsDouble(),
            (int) n.getAsDouble(),
            age,
            axial,
            disc,
            scope.get()));
  }

  Optional<ReferenceAgeing> ageing() {
    Optional<ReferenceSource> source = source();
    Optional<ReferencePlace> place = place();
    Optional<ReferenceScope> scope = scope();
    String column = "age_slope_um_per_year";
    OptionalDouble slope = needed(column, cells.number(column));
    ONLY_LIMITS.forEach(one -> cells.none(one, "in a row of kind " + AGEING));
    return source.isEmpty() || place.isEmpty() || scope.isEmpty() || slope.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new ReferenceAgeing(source.get(), place.get(), slope.getAsDouble(), scope.get()));
  }

  private OptionalDouble needed(String column, OptionalDouble value) {
    cells.needed(column);
    return value;
  }

  private Optional<ReferenceSource> source() {
    String id = cells.needed("reference_id");
    String source = cells.needed("source");
    String population = cells.needed("population");
    String word = cells.text("status");
    Optional<ReferenceSource.Status> status =
        Arrays.stream(ReferenceSource.Status.values())
            .filter(one -> one.code().equals(word))
            .findFirst();
    if (status.isEmpty()) {
      cells.fault("status", "must be read, from-memory or computed, was '" + word + "'");
    }
    return id.isEmpty() || source.isEmpty() || population.isEmpty() || status.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new ReferenceSource(id, population, source, status.get(), cells.text("note")));
  }

  private Optional<ReferencePlace> place() {
    String word = cells.text("measure");
    Optional<ReferenceMeasure> measure = ReferenceMeasure.ofCode(word);
    if (measure.isEmpty()) {
      cells.fault(
          "measure", "must be circle, grid, elliptical-annulus or rim-width, was '" + word + "'");
    }
    OptionalDouble diameter = cells.positive("diameter_mm");
    if (!word.equals(ReferenceMeasure.CIRCLE.code())) {
      cells.none("diameter_mm", "unless the measure is circle");
    }
    boolean boundaries = boundaries(word);
    boolean sector = sector();
    boolean angleZero = angleZero();
    return measure.isEmpty() || !boundaries || !sector || !angleZero
        ? Optional.empty()
        : Optional.of(
            new ReferencePlace(
                measure.get(),
                cells.text("boundaries"),
                cells.text("scheme"),
                cells.text("sector"),
                diameter,
                optional("angle_zero")));
  }

  private boolean boundaries(String measure) {
    String word = cells.text("boundaries");
    boolean rim = measure.equals(ReferenceMeasure.RIM_WIDTH.code());
    boolean known = rim ? word.equals(ReferencePlace.RIM) : Layer.ofName(word).isPresent();
    if (!known) {
      cells.fault(
          "boundaries",
          rim
              ? "must be " + ReferencePlace.RIM + " for the rim width, was '" + word + "'"
              : "must be the inner and the outer boundary, for example ILM-RNFL-GCL, was '"
                  + word
                  + "'");
    }
    return known;
  }

  private boolean sector() {
    String sector = cells.needed("sector");
    boolean global = sector.equals(ReferencePlace.GLOBAL);
    if (global) {
      cells.none("scheme", "for the sector " + ReferencePlace.GLOBAL);
    }
    return !sector.isEmpty() && (global || !cells.needed("scheme").isEmpty());
  }

  private boolean angleZero() {
    String word = cells.text("angle_zero");
    boolean known =
        word.isEmpty()
            || word.equals(ReferencePlace.HORIZONTAL)
            || word.equals(ReferencePlace.FOVEA_DISC_LINE);
    if (!known) {
      cells.fault("angle_zero", "must be empty, horizontal or fovea-disc-line, was '" + word + "'");
    }
    return known;
  }

  private Optional<ReferenceScope> scope() {
    Optional<StatedRange> ages =
        range(
            "age_from_years",
            cells.whole("age_from_years", 0),
            "age_to_years",
            cells.whole("age_to_years", 0));
    Optional<StatedRange> axial =
        range(
            "axial_from_mm",
            cells.positive("axial_from_mm"),
            "axial_to_mm",
            cells.positive("axial_to_mm"));
    List<String> models =
        Arrays.stream(cells.text("device_models").split(";", -1))
            .map(String::strip)
            .filter(model -> !model.isEmpty())
            .toList();
    return ages.isEmpty() || axial.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new ReferenceScope(ages.get(), axial.get(), optional("device_class"), models));
  }

  private Optional<StatedRange> range(
      String fromColumn, OptionalDouble from, String toColumn, OptionalDouble to) {
    if (from.isPresent() && to.isPresent() && from.getAsDouble() > to.getAsDouble()) {
      cells.fault(
          toColumn,
          "must not be below "
              + fromColumn
              + ", was "
              + cells.text(toColumn)
              + " and "
              + cells.text(fromColumn));
      return Optional.empty();
    }
    return Optional.of(new StatedRange(from, to));
  }

  private Optional<ReferenceSlope> slope(String slopeColumn, String meanColumn) {
    OptionalDouble slope = cells.number(slopeColumn);
    OptionalDouble mean = cells.positive(meanColumn);
    if (!cells.text(slopeColumn).isEmpty() && cells.text(meanColumn).isEmpty()) {
      cells.fault(
          meanColumn, "must say where the mean holds, without which the slope cannot be used");
    }
    if (cells.text(slopeColumn).isEmpty()) {
      cells.none(meanColumn, "without " + slopeColumn);
    }
    return slope.isPresent() && mean.isPresent()
        ? Optional.of(new ReferenceSlope(slope.getAsDouble(), mean.getAsDouble()))
        : Optional.empty();
  }

  private Optional<String> optional(String column) {
    String text = cells.text(column);
    return text.isEmpty() ? Optional.empty() : Optional.of(text);
  }
}

package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;

/**
 * Errors of numbers in tables, and what can be said about a selection of them. NaN where nothing
 * was measured.
 */
record PlaceErrors(List<PlaceError> errors) {
  PlaceErrors {
    errors = List.copyOf(errors);
  }

  static PlaceErrors of(Collection<List<PlaceError>> parts) {
    List<PlaceError> all = new ArrayList<>();
    parts.forEach(all::addAll);
    return new PlaceErrors(all);
  }

  static PlaceErrors ofScores(List<ScanScore> scores) {
    return of(scores.stream().map(ScanScore::places).toList());
  }

  PlaceErrors layer(Layer layer) {
    return new PlaceErrors(errors.stream().filter(e -> e.layer().equals(layer)).toList());
  }

  PlaceErrors place(String place) {
    return new PlaceErrors(errors.stream().filter(e -> e.place().equals(place)).toList());
  }

  /** Returns those of the nine sectors, without total and centre point. */
  PlaceErrors sectors() {
    return new PlaceErrors(
        errors.stream()
            .filter(e -> !e.place().equals(SectorGrid.TOTAL))
            .filter(e -> !e.place().equals(SectorTabulator.CENTRE_POINT))
            .toList());
  }

  int measured() {
    return (int) errors.stream().filter(e -> e.um().isPresent()).count();
  }

  int refused() {
    return errors.size() - measured();
  }

  double bias() {
    return errors.stream()
        .map(PlaceError::um)
        .flatMapToDouble(OptionalDouble::stream)
        .average()
        .orElse(Double.NaN);
  }

  double meanAbsolute() {
    return errors.stream()
        .map(PlaceError::um)
        .flatMapToDouble(OptionalDouble::stream)
        .map(Math::abs)
        .average()
        .orElse(Double.NaN);
  }

  double spread() {
    double mean = bias();
    return Math.sqrt(
        errors.stream()
            .map(PlaceError::um)
            .flatMapToDouble(OptionalDouble::stream)
            .map(e -> (e - mean) * (e - mean))
            .average()
            .orElse(Double.NaN));
  }

  double worst() {
    return errors.stream()
        .map(PlaceError::um)
        .flatMapToDouble(OptionalDouble::stream)
        .map(Math::abs)
        .max()
        .orElse(Double.NaN);
  }

  /** Returns eye and place of the worst error, or an empty text. */
  String worstPlace() {
    double worst = worst();
    return errors.stream()
        .filter(e -> e.um().isPresent() && Math.abs(e.um().getAsDouble()) == worst)
        .findFirst()
        .map(e -> e.seed() + " " + e.place())
        .orElse("");
  }

  int within(double limitUm) {
    return (int)
        errors.stream()
            .map(PlaceError::um)
            .flatMapToDouble(OptionalDouble::stream)
            .filter(e -> Math.abs(e) <= limitUm)
            .count();
  }
}

package org.isopach.cli.accuracy;

import java.util.Objects;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Layer;

/**
 * The error of one number of a table.
 *
 * @param seed the eye
 * @param layer the thickness
 * @param place a sector, the total or the centre point
 * @param um measured minus true in µm; empty when the table has no number
 */
record PlaceError(long seed, Layer layer, String place, OptionalDouble um) {
  PlaceError {
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(um, "um");
  }
}

package org.isopach.analysis.normal;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * Which eyes a row is about.
 *
 * @param ages in completed years, so that 20 to 82 holds an eye of 82.9 years
 * @param axialLengths in mm
 * @param deviceClass kind of instrument, for example {@code spectral-domain}; empty where not
 *     stated
 * @param deviceModels model names, as instruments give them, to which the row is confined; empty
 *     for any
 */
public record ReferenceScope(
    StatedRange ages,
    StatedRange axialLengths,
    Optional<String> deviceClass,
    List<String> deviceModels) {
  public ReferenceScope {
    Objects.requireNonNull(ages, "ages");
    Objects.requireNonNull(axialLengths, "axialLengths");
    Objects.requireNonNull(deviceClass, "deviceClass");
    deviceModels = List.copyOf(deviceModels);
  }
}

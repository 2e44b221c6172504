package org.isopach.analysis.normal;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What must be known of an eye to find a reference for it.
 *
 * @param ageYears age on the day of the scan in years, with fractions
 * @param axialLengthMm axial length in mm
 * @param discAreaMm2 area of Bruch's membrane opening in mm²
 * @param deviceModel the instrument's model name as its objects give it
 * @param deviceClass kind of the instrument, in the words of the table
 */
public record NormalEye(
    OptionalDouble ageYears,
    OptionalDouble axialLengthMm,
    OptionalDouble discAreaMm2,
    Optional<String> deviceModel,
    Optional<String> deviceClass) {
  /** An eye of which nothing is known. */
  public static final NormalEye UNKNOWN =
      new NormalEye(
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          Optional.empty(),
          Optional.empty());

  public NormalEye {
    Objects.requireNonNull(ageYears, "ageYears");
    Objects.requireNonNull(axialLengthMm, "axialLengthMm");
    Objects.requireNonNull(discAreaMm2, "discAreaMm2");
    Objects.requireNonNull(deviceModel, "deviceModel");
    Objects.requireNonNull(deviceClass, "deviceClass");
  }

  /** Returns this eye at another age. */
  public NormalEye aged(double years) {
    return new NormalEye(
        OptionalDouble.of(years), axialLengthMm, discAreaMm2, deviceModel, deviceClass);
  }
}

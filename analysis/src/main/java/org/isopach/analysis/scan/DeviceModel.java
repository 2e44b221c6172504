package org.isopach.analysis.scan;

import java.util.Objects;

/**
 * Which instrument made a scan, as the object states it.
 *
 * @param manufacturer who made the instrument; empty when not stated
 * @param model the manufacturer's name of the model; not empty
 */
public record DeviceModel(String manufacturer, String model) {
  public DeviceModel {
    Objects.requireNonNull(manufacturer, "manufacturer");
    if (model.isBlank()) {
      throw new IllegalArgumentException("a device model needs a name");
    }
  }
}

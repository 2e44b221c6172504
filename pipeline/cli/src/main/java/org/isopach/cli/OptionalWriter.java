package org.isopach.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import java.io.IOException;
import java.util.Optional;

/** Writes an optional value as itself or as null. */
final class OptionalWriter extends StdSerializer<Optional<?>> {
  private static final long serialVersionUID = 1L;

  OptionalWriter() {
    super(Optional.class, false);
  }

  @Override
  public void serialize(Optional<?> value, JsonGenerator json, SerializerProvider provider)
      throws IOException {
    provider.defaultSerializeValue(value.orElse(null), json);
  }
}

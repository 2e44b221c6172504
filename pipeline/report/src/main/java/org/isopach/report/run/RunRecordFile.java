package org.isopach.report.run;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Path;
import org.isopach.report.file.CompleteFile;

/** Writes {@code run.json}: names in snake_case like the tables' columns, indented, UTF-8. */
public final class RunRecordFile {
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .enable(SerializationFeature.INDENT_OUTPUT)
          .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
          .build();

  private RunRecordFile() {}

  /** Makes or replaces the file and returns its SHA-256 digest. */
  public static String write(Path target, RunRecord run) throws IOException {
    return CompleteFile.write(
        target,
        out -> {
          JSON.writeValue(out, run);
          out.write('\n');
        });
  }
}

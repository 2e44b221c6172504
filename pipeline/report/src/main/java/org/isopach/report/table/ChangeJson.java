package org.isopach.report.table;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.Collection;
import java.util.List;
import org.isopach.report.Cautions;
import org.isopach.report.file.CompleteFile;

/**
 * {@code change.json}: the rows of {@code change.csv} and {@code change-regions.csv} for programs,
 * under the same names. Numbers are numbers, flags are flags, an empty cell is null.
 */
public final class ChangeJson {
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .enable(SerializationFeature.INDENT_OUTPUT)
          .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
          .build();
  private static final String NUMBERS =
      "n_days|p|p_adjusted|noise_df|region|.*_(um|mm|mm2|mm3|fraction|percent)";

  private ChangeJson() {}

  /** Writes all changes and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<AlignedChange> changes) throws IOException {
    ObjectNode root = JSON.createObjectNode();
    ArrayNode cautions = root.putArray("cautions");
    Cautions.sentences().forEach(cautions::add);
    rows(root.putArray("change"), ChangeFile.columns(), ChangeFile.rows(changes));
    rows(
        root.putArray("change_regions"),
        ChangeRegionFile.columns(),
        ChangeRegionFile.rows(changes));
    return CompleteFile.write(
        target,
        out -> {
          JSON.writeValue(out, root);
          out.write('\n');
        });
  }

  private static void rows(ArrayNode array, List<String> columns, List<List<String>> rows) {
    for (List<String> row : rows) {
      ObjectNode object = array.addObject();
      for (int i = 0; i < columns.size(); i++) {
        put(object, columns.get(i), row.get(i));
      }
    }
  }

  private static void put(ObjectNode object, String column, String cell) {
    if (cell.isEmpty()) {
      object.putNull(column);
    } else if (column.matches("measurable|beyond_noise")) {
      object.put(column, Boolean.parseBoolean(cell));
    } else if (column.matches(NUMBERS) && !cell.equals("infinite")) {
      object.put(column, new BigDecimal(cell));
    } else {
      object.put(column, cell);
    }
  }
}

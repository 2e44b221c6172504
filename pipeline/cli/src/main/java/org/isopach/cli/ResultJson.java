package org.isopach.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.math.BigDecimal;
import java.util.List;
import org.isopach.job.JobResult;
import org.isopach.job.RepeatabilityResult;
import org.isopach.report.table.ChangeFile;
import org.isopach.report.table.ChangeRegionFile;
import org.isopach.report.table.FluidFile;
import org.isopach.report.table.NerveChangeFile;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.RepeatabilityTree;
import org.isopach.report.table.SectorFile;

/**
 * Prints results as JSON: the run record, and the rows of the tables under their column names.
 * Numbers are numbers, an empty number is null.
 */
final class ResultJson {
  static final ObjectMapper JSON =
      JsonMapper.builder()
          .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .enable(SerializationFeature.INDENT_OUTPUT)
          .addModule(new SimpleModule().addSerializer(new OptionalWriter()))
          .build();

  private static final String NUMBERS =
      "n_days|regions|region|p|p_adjusted|noise_df|value|sd|min|max|age_years|percentile.*"
          + "|baseline|follow_up|change|change_low|change_high|limit|visits|needed_visits|power"
          + "|span_years|slope_p|.*_um_per_year"
          + "|theirs|ours|difference|pairs|only_.*|.*_voxels|dice|scans"
          + "|.*_section_frame|.*_(um|mm|mm2|mm3|nl|fraction|percent)";

  private ResultJson() {}

  static void print(PrintWriter out, JobResult result) throws IOException {
    print(out, tree(result));
  }

  static void print(PrintWriter out, RepeatabilityResult result) throws IOException {
    ObjectNode root = tree(result.job());
    root.set("repeatability", RepeatabilityTree.of(result.study(), result.job().run().software()));
    print(out, root);
  }

  private static ObjectNode tree(JobResult result) {
    ObjectNode root = JSON.createObjectNode();
    root.put("out", result.folder().root().toString());
    root.set("sectors", rows(SectorFile.columns(), SectorFile.rows(result.tables())));
    root.set("fluid", rows(FluidFile.columns(), FluidFile.rows(result.regions())));
    if (!result.run().command().equals("compare")) {
      root.putNull("change");
      root.putNull("change_regions");
    } else {
      root.set("change", rows(ChangeFile.columns(), ChangeFile.rows(result.changes())));
      root.set(
          "change_regions",
          rows(ChangeRegionFile.columns(), ChangeRegionFile.rows(result.changes())));
      root.set("nerve", rows(NerveFile.columns(), NerveFile.rows(result.nerve())));
      root.set(
          "nerve_change",
          rows(NerveChangeFile.columns(), NerveChangeFile.rows(result.nerveChanges())));
    }
    root.set("run", JSON.valueToTree(result.run()));
    return root;
  }

  static void print(PrintWriter out, JsonNode root) throws IOException {
    out.println(JSON.writeValueAsString(root));
  }

  static ArrayNode rows(List<String> columns, List<List<String>> rows) {
    ArrayNode array = JSON.createArrayNode();
    for (List<String> row : rows) {
      ObjectNode object = array.addObject();
      for (int i = 0; i < columns.size(); i++) {
        put(object, columns.get(i), row.get(i));
      }
    }
    return array;
  }

  private static void put(ObjectNode object, String column, String cell) {
    if (column.matches("measurable|present|beyond_noise|comparable")) {
      putFlag(object, column, cell);
    } else if (!column.matches(NUMBERS)) {
      object.put(column, cell);
    } else if (cell.isEmpty()) {
      object.putNull(column);
    } else {
      object.put(column, new BigDecimal(cell));
    }
  }

  private static void putFlag(ObjectNode object, String column, String cell) {
    if (cell.isEmpty()) {
      object.putNull(column);
    } else {
      object.put(column, Boolean.parseBoolean(cell));
    }
  }
}

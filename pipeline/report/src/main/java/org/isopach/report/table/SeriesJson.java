package org.isopach.report.table;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.analysis.series.VisitFluid;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.isopach.report.file.CompleteFile;

/**
 * {@code series.json}: what {@code series.csv}, {@code trend.csv}, {@code response.csv} and {@code
 * dry.csv} say, by eye and by series, under the same names. Numbers are numbers, an empty one is
 * null.
 */
public final class SeriesJson {
  private static final ObjectMapper JSON =
      JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

  private SeriesJson() {}

  /** Makes or replaces the file and returns its SHA-256 digest. */
  public static String write(
      Path target, List<EyeCourse> courses, SeriesRules rules, Software software)
      throws IOException {
    byte[] bytes =
        (JSON.writeValueAsString(tree(courses, rules, software)) + "\n")
            .getBytes(StandardCharsets.UTF_8);
    return CompleteFile.write(target, out -> out.write(bytes));
  }

  /** Returns the file's content. */
  public static ObjectNode tree(List<EyeCourse> courses, SeriesRules rules, Software software) {
    ObjectNode root = JSON.createObjectNode();
    root.put("software", software.title());
    ArrayNode cautions = root.putArray("cautions");
    Cautions.sentences().forEach(cautions::add);
    root.put("loading_days", rules.loadingDays());
    root.put("dry_floor_nl", rules.dryFloorNl());
    root.put("ageing_subtracted", !rules.ageing().isEmpty());
    ArrayNode eyes = root.putArray("eyes");
    EyeKey.inOrder(courses).forEach(course -> put(eyes.addObject(), course, rules));
    return root;
  }

  private static void put(ObjectNode node, EyeCourse course, SeriesRules rules) {
    put(node, EyeKey.COLUMNS, EyeKey.cells(course.eye()), Set.of());
    ArrayNode treatments = node.putArray("treatments");
    course
        .treatments()
        .forEach(
            one ->
                treatments.addObject().put("date", one.date().toString()).put("what", one.what()));
    ArrayNode fluid = node.putArray("fluid");
    course.fluid().forEach(visit -> put(fluid.addObject(), visit));
    node.putNull("dry");
    Set<String> said = new HashSet<>(EyeKey.COLUMNS);
    course
        .timeToDry(rules)
        .ifPresent(
            dry ->
                put(
                    node.putObject("dry"),
                    DryFile.columns(),
                    DryFile.row(course, dry, rules),
                    said));
    ArrayNode series = node.putArray("series");
    EyeKey.inOrder(course).forEach(one -> put(series.addObject(), course, one, rules));
  }

  private static void put(ObjectNode node, VisitFluid visit) {
    node.put("sop_uid", visit.scan().sopUid()).put("date", visit.date().toString());
    put(node, "volume_nl", DryFile.volume(visit));
    node.put("reason", visit.reason());
  }

  private static void put(
      ObjectNode node, EyeCourse course, VisitSeries series, SeriesRules rules) {
    put(node, EyeKey.SERIES_COLUMNS, EyeKey.cells(series), Set.copyOf(EyeKey.COLUMNS));
    Set<String> said = Set.copyOf(EyeKey.SERIES_COLUMNS);
    put(node.putObject("trend"), TrendFile.columns(), TrendFile.row(series, rules), said);
    ArrayNode visits = node.putArray("visits");
    SeriesFile.rows(series)
        .forEach(row -> put(visits.addObject(), SeriesFile.columns(), row, said));
    ArrayNode responses = node.putArray("response");
    course
        .response(series, rules)
        .ifPresent(
            response ->
                ResponseFile.rows(response)
                    .forEach(row -> put(responses.addObject(), ResponseFile.columns(), row, said)));
  }

  private static void put(
      ObjectNode node, List<String> columns, List<String> cells, Set<String> without) {
    for (int i = 0; i < columns.size(); i++) {
      if (!without.contains(columns.get(i))) {
        put(node, columns.get(i), cells.get(i));
      }
    }
  }

  private static void put(ObjectNode node, String column, String cell) {
    if (column.matches("measurable|loading_phase")) {
      node.put(column, Boolean.parseBoolean(cell));
    } else if (!column.matches(
        "visit|visits|unmeasured_visits|n_days|.*_days|days_from_treatment"
            + "|.*_(um|um_per_year|nl|percent|fraction)")) {
      node.put(column, cell);
    } else if (cell.isEmpty()) {
      node.putNull(column);
    } else {
      node.put(column, new BigDecimal(cell));
    }
  }
}

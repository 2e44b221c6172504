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
import java.util.List;
import java.util.Set;
import org.isopach.analysis.repeat.RepeatSession;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.RepeatedValues;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.isopach.report.file.CompleteFile;

/**
 * {@code repeatability.json}: the rows of {@code repeatability.csv} under their column names, with
 * the value of every repeat, and the sessions. Numbers are numbers, an empty number is null.
 */
public final class RepeatabilityTree {
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .enable(SerializationFeature.INDENT_OUTPUT)
          .disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET)
          .build();
  private static final Set<String> WORDS = Set.of("layer", "grid", "sector", "alignment", "reason");

  private RepeatabilityTree() {}

  /** Makes or replaces the file and returns its SHA-256 digest. */
  public static String write(Path target, RepeatabilityStudy study, Software software)
      throws IOException {
    return CompleteFile.write(
        target,
        out -> {
          JSON.writeValue(out, of(study, software));
          out.write('\n');
        });
  }

  /** Returns what stands in the file. */
  public static ObjectNode of(RepeatabilityStudy study, Software software) {
    ObjectNode root = JSON.createObjectNode();
    root.putObject("software").put("name", software.name()).put("version", software.version());
    ArrayNode cautions = root.putArray("cautions");
    Cautions.sentences().forEach(cautions::add);
    root.put("within_days", study.withinDays());
    ArrayNode sessions = root.putArray("sessions");
    study.sessions().forEach(session -> add(sessions.addObject(), session));
    ArrayNode sectors = root.putArray("sectors");
    List<List<String>> rows = RepeatabilityFile.rows(study);
    for (int i = 0; i < rows.size(); i++) {
      ObjectNode sector = sectors.addObject();
      for (int c = 0; c < rows.get(i).size(); c++) {
        put(sector, RepeatabilityFile.columns().get(c), rows.get(i).get(c));
      }
      ArrayNode values = sector.putArray("values");
      study.sectors().get(i).sessions().forEach(one -> add(values.addObject(), one));
    }
    return root;
  }

  private static void add(ObjectNode node, RepeatSession session) {
    node.put("session", session.number());
    node.put("patient_id", session.eye().patientId());
    node.put("laterality", session.eye().laterality().code());
    ArrayNode repeats = node.putArray("repeats");
    for (ScanIdentity scan : session.repeats()) {
      repeats
          .addObject()
          .put("study_uid", scan.studyUid())
          .put("series_uid", scan.seriesUid())
          .put("sop_uid", scan.sopUid())
          .put("acquired", ScanKey.time(scan.acquired()));
    }
  }

  private static void add(ObjectNode node, RepeatedValues values) {
    node.put("session", values.session());
    ArrayNode repeats = node.putArray("repeats");
    for (RepeatedValues.Repeat repeat : values.repeats()) {
      repeats
          .addObject()
          .put("sop_uid", repeat.sopUid())
          .put("um", new BigDecimal(TableNumber.fixed(repeat.um(), 4)))
          .put("alignment", repeat.alignment());
    }
  }

  private static void put(ObjectNode node, String column, String cell) {
    if (WORDS.contains(column)) {
      node.put(column, cell);
    } else if (column.equals("measurable")) {
      node.put(column, Boolean.parseBoolean(cell));
    } else if (cell.isEmpty()) {
      node.putNull(column);
    } else {
      node.put(column, new BigDecimal(cell));
    }
  }
}

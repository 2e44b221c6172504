package org.isopach.dicom.deidentify;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Writes what a run did: counts by attribute and action, never a value, a name of a file or a key.
 */
public final class ReportFiles {
  /** The report's name; it is there from the start of a run. */
  static final String JSON = "deidentified.json";

  static final String KEY_CHECK = "key_check";

  private static final String CSV = "deidentified.csv";
  private static final ActionTable TABLE = ActionTable.load();
  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private ReportFiles() {}

  static void writeStarted(OutFolder folder) throws IOException {
    ObjectNode root = start(folder, false);
    folder.put(JSON, MAPPER.writeValueAsString(root) + "\n");
  }

  /** Writes {@code deidentified.csv} and {@code deidentified.json}, of this run alone. */
  public static void write(OutFolder folder, List<Outcome> outcomes, Tally tally)
      throws IOException {
    ObjectNode root = start(folder, true);
    root.put("written", Outcome.written(outcomes));
    root.put("not_dicom", outcomes.stream().filter(Outcome::skipped).count());
    Map<String, Integer> reasons = new TreeMap<>();
    outcomes.stream()
        .filter(one -> one.written().isEmpty() && !one.skipped())
        .forEach(one -> reasons.merge(one.refused(), 1, Integer::sum));
    ObjectNode refused = root.putObject("refused");
    reasons.forEach(refused::put);
    String csv = actions(tally, root.putArray("actions"));
    folder.put(CSV, csv);
    folder.put(JSON, MAPPER.writeValueAsString(root) + "\n");
  }

  private static ObjectNode start(OutFolder folder, boolean finished) {
    Options options = folder.options();
    return MAPPER
        .createObjectNode()
        .put("profile", "PS3.15 Basic Application Level Confidentiality Profile, 2024b")
        .put("dates", options.shiftDates() ? "shifted" : "removed")
        .put("device_kept", options.keepDevice())
        .put("characteristics_kept", options.keepCharacteristics())
        .put(KEY_CHECK, folder.keyCheck())
        .put("finished", finished);
  }

  /** Returns the table of actions, having put its rows into an array too. */
  private static String actions(Tally tally, ArrayNode rows) {
    StringBuilder csv = new StringBuilder("tag,name,action,count\n");
    tally
        .counts()
        .forEach(
            (tag, counts) ->
                counts.forEach(
                    (action, count) -> {
                      String what = action.name().toLowerCase(Locale.ROOT);
                      csv.append(tag(tag)).append(',').append(name(tag)).append(',');
                      csv.append(what).append(',').append(count).append('\n');
                      ObjectNode row = rows.addObject();
                      row.put("tag", tag(tag)).put("name", name(tag));
                      row.put("action", what).put("count", count);
                    }));
    return csv.toString();
  }

  private static String tag(int tag) {
    return tag == Tally.PRIVATE ? "private" : String.format(Locale.ROOT, "%08X", tag);
  }

  private static String name(int tag) {
    return TABLE
        .row(tag)
        .map(ActionTable.Row::name)
        .orElse(tag == Tally.PRIVATE ? "Private attributes" : "");
  }
}

package org.isopach.dicom.deidentify;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Writes what was done: counts by attribute and action, never a value, a name of a file or a key.
 */
public final class ReportFiles {
  private static final ActionTable TABLE = ActionTable.load();

  private ReportFiles() {}

  /** Writes {@code deidentified.csv} and {@code deidentified.json} into a folder. */
  public static void write(Path folder, List<Outcome> outcomes, Tally tally, Options options)
      throws IOException {
    StringBuilder csv = new StringBuilder("tag,name,action,count\n");
    ObjectMapper json = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
    ObjectNode root = json.createObjectNode();
    root.put("profile", "PS3.15 Basic Application Level Confidentiality Profile, 2024b");
    root.put("dates", options.shiftDates() ? "shifted" : "removed");
    root.put("device_kept", options.keepDevice());
    root.put("characteristics_kept", options.keepCharacteristics());
    root.put("written", Outcome.written(outcomes));
    root.put("not_dicom", outcomes.stream().filter(Outcome::skipped).count());
    Map<String, Integer> reasons = new TreeMap<>();
    outcomes.stream()
        .filter(one -> one.written().isEmpty() && !one.skipped())
        .forEach(one -> reasons.merge(one.refused(), 1, Integer::sum));
    ObjectNode refused = root.putObject("refused");
    reasons.forEach(refused::put);
    var actions = root.putArray("actions");
    tally
        .counts()
        .forEach(
            (tag, counts) ->
                counts.forEach(
                    (action, count) -> {
                      String what = action.name().toLowerCase(Locale.ROOT);
                      csv.append(tag(tag)).append(',').append(name(tag)).append(',');
                      csv.append(what).append(',').append(count).append('\n');
                      ObjectNode row = actions.addObject();
                      row.put("tag", tag(tag)).put("name", name(tag));
                      row.put("action", what).put("count", count);
                    }));
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("deidentified.csv"), csv);
    Files.writeString(folder.resolve("deidentified.json"), json.writeValueAsString(root) + "\n");
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

package org.isopach.dicom.deidentify;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The rows of PS3.15 table E.1-1 (2024b) that are known; see {@code actions.csv}. */
final class ActionTable {
  private static final int COLUMNS = 4;
  private static final int HEXADECIMAL = 16;

  /**
   * One row.
   *
   * @param basic the action code of the basic profile, such as {@code X/Z/D}
   * @param options those that change it, such as {@code Dev=K}
   */
  record Row(String name, String basic, List<String> options) {
    private boolean keptBy(String option) {
      return options.contains(option + "=K");
    }

    /** Returns whether an option keeps the attribute; dates of the device go by the other rule. */
    boolean retained(Options chosen) {
      boolean device = chosen.keepDevice() && keptBy("Dev") && !dated();
      return device || (chosen.keepCharacteristics() && keptBy("PatC"));
    }

    boolean dated() {
      return options.contains("ModD=C");
    }
  }

  private final Map<Integer, Row> rows = new HashMap<>();

  private ActionTable() {}

  static ActionTable load() {
    ActionTable table = new ActionTable();
    try (InputStream in = ActionTable.class.getResourceAsStream("actions.csv")) {
      new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#") && !line.startsWith("tag,"))
          .forEach(table::add);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return table;
  }

  private void add(String line) {
    String[] cells = line.split(",", COLUMNS);
    int tag = Integer.parseUnsignedInt(cells[0], HEXADECIMAL);
    rows.put(tag, new Row(cells[1], cells[2], List.of(cells[3].split(" ", -1))));
  }

  Optional<Row> row(int tag) {
    return Optional.ofNullable(rows.get(tag));
  }

  int size() {
    return rows.size();
  }
}

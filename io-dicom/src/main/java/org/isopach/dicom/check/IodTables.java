package org.isopach.dicom.check;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.dicom.data.Code;

/** The tables the project carries; their origin and edition are told in the README beside them. */
final class IodTables {
  static final String RESOURCE = "iod-tables.json";

  private final List<IodTable> iods;
  private final Map<String, ModuleTable> modules;
  private final Map<String, List<Code>> contextGroups;

  IodTables(
      List<IodTable> iods,
      Map<String, ModuleTable> modules,
      Map<String, List<Code>> contextGroups) {
    this.iods = List.copyOf(iods);
    this.modules = modules;
    this.contextGroups = contextGroups;
  }

  /** Returns the tables in the project's resources. */
  static IodTables standard() {
    try (InputStream in = IodTables.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new IllegalStateException(RESOURCE + " is missing from the build");
      }
      JsonNode root = new ObjectMapper().readTree(in);
      return new TableParser(root).tables();
    } catch (IOException e) {
      throw new UncheckedIOException(RESOURCE + " cannot be read", e);
    }
  }

  Optional<IodTable> iod(String sopClassUid) {
    return iods.stream().filter(i -> i.sopClassUid().equals(sopClassUid)).findFirst();
  }

  List<IodTable> iods() {
    return iods;
  }

  Map<String, ModuleTable> modules() {
    return modules;
  }

  /** Returns the codes of a context group, or empty when we have no list of it. */
  Optional<List<Code>> contextGroup(String id) {
    return Optional.ofNullable(contextGroups.get(id));
  }
}

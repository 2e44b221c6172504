package org.isopach.dicom.check;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Vr;

/** Reads the tables' JSON; every key is known or an error. */
final class TableParser {
  private static final Set<String> ATTRIBUTE_KEYS =
      Set.of(
          "tag",
          "name",
          "vr",
          "vm",
          "type",
          "itemCount",
          "values",
          "terms",
          "code",
          "fixedCode",
          "contextGroup",
          "unit",
          "condition",
          "rule",
          "otherwise",
          "attributes");

  private final JsonNode root;
  private final Map<String, ModuleTable> modules = new TreeMap<>();

  TableParser(JsonNode root) {
    this.root = root;
  }

  IodTables tables() {
    root.get("modules").properties().forEach(e -> modules.put(e.getKey(), module(e.getValue())));
    Map<String, List<Code>> groups = new TreeMap<>();
    root.get("contextGroups")
        .properties()
        .forEach(e -> groups.put(e.getKey(), codes(e.getValue().get("codes"))));
    List<IodTable> iods = new ArrayList<>();
    for (JsonNode iod : root.get("iods")) {
      iods.add(
          new IodTable(
              iod.get("name").asText(),
              iod.get("sopClassUid").asText(),
              uses(iod.get("modules")),
              iod.has("functionalGroups") ? uses(iod.get("functionalGroups")) : List.of()));
    }
    return new IodTables(
        iods, Collections.unmodifiableMap(modules), Collections.unmodifiableMap(groups));
  }

  private List<ModuleUse> uses(JsonNode list) {
    List<ModuleUse> uses = new ArrayList<>();
    for (JsonNode use : list) {
      String key = use.get("module").asText();
      uses.add(
          new ModuleUse(
              key,
              Optional.ofNullable(modules.get(key)),
              ModuleUse.Usage.valueOf(use.get("usage").asText()),
              requirement(use)));
    }
    return uses;
  }

  private static ModuleTable module(JsonNode module) {
    return new ModuleTable(
        module.get("name").asText(),
        module.path("partial").asBoolean(false),
        attributes(module.get("attributes")));
  }

  private static List<AttributeRule> attributes(JsonNode list) {
    List<AttributeRule> rules = new ArrayList<>();
    for (JsonNode node : list) {
      node.fieldNames().forEachRemaining(TableParser::requireKnown);
      rules.add(attribute(node));
    }
    return rules;
  }

  private static void requireKnown(String key) {
    if (!ATTRIBUTE_KEYS.contains(key)) {
      throw new IllegalStateException("unknown key in the attribute tables: " + key);
    }
  }

  private static AttributeRule attribute(JsonNode node) {
    Set<Vr> vrs = EnumSet.noneOf(Vr.class);
    node.get("vr").forEach(v -> vrs.add(Vr.valueOf(v.asText())));
    boolean sequence = vrs.contains(Vr.SQ);
    return new AttributeRule(
        tag(node.get("tag")),
        node.get("name").asText(),
        vrs,
        optional(node, sequence ? "itemCount" : "vm")
            .map(JsonNode::asText)
            .map(Multiplicity::parse),
        AttributeType.ofCode(node.get("type").asText()),
        requirement(node),
        texts(node.path("values")),
        codeRule(node),
        node.has("attributes") ? attributes(node.get("attributes")) : List.of());
  }

  private static Optional<AttributeRule.CodeRule> codeRule(JsonNode node) {
    if (!node.path("code").asBoolean(false)) {
      return Optional.empty();
    }
    return Optional.of(
        new AttributeRule.CodeRule(
            optional(node, "contextGroup").map(JsonNode::asText),
            optional(node, "fixedCode").map(TableParser::code)));
  }

  private static AttributeRule.Requirement requirement(JsonNode node) {
    return new AttributeRule.Requirement(
        node.path("condition").asText(""),
        optional(node, "rule").map(TableParser::condition),
        node.path("otherwise").asBoolean(false));
  }

  private static Condition condition(JsonNode rule) {
    String kind = rule.fieldNames().next();
    JsonNode operand = rule.get(kind);
    return switch (kind) {
      case "present" -> new Condition.Present(tag(operand));
      case "absent" -> new Condition.Not(new Condition.Present(tag(operand)));
      case "deep" -> new Condition.Anywhere(tag(operand));
      case "absent-deep" -> new Condition.Not(new Condition.Anywhere(tag(operand)));
      case "empty" -> new Condition.Empty(tag(operand));
      case "equals" ->
          new Condition.ValueIs(tag(operand), rule.get("value").asInt(), texts(rule.get("any")));
      case "notEquals" ->
          new Condition.Not(new Condition.ValueIs(tag(operand), 1, texts(rule.get("any"))));
      case "greater" -> new Condition.Above(tag(operand), rule.get("than").asDouble());
      case "code" -> new Condition.HasCode(tag(operand), codes(rule.get("any")));
      case "nonAscii" -> new Condition.NonAscii();
      case "unknown" -> new Condition.Unknown(operand.asText());
      case "all" -> new Condition.All(conditions(operand));
      case "any" -> new Condition.Any(conditions(operand));
      default -> throw new IllegalStateException("unknown condition in the tables: " + kind);
    };
  }

  private static List<Condition> conditions(JsonNode list) {
    List<Condition> conditions = new ArrayList<>();
    list.forEach(c -> conditions.add(condition(c)));
    return conditions;
  }

  private static List<Code> codes(JsonNode list) {
    List<Code> codes = new ArrayList<>();
    list.forEach(c -> codes.add(code(c)));
    return codes;
  }

  private static Code code(JsonNode parts) {
    return new Code(parts.get(0).asText(), parts.get(1).asText(), parts.path(2).asText(""));
  }

  private static int tag(JsonNode node) {
    return Integer.parseUnsignedInt(node.asText(), 16);
  }

  private static List<String> texts(JsonNode list) {
    List<String> texts = new ArrayList<>();
    list.forEach(t -> texts.add(t.asText()));
    return texts;
  }

  private static Optional<JsonNode> optional(JsonNode node, String key) {
    return Optional.ofNullable(node.get(key));
  }
}

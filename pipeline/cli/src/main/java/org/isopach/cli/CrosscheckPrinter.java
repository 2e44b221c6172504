package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.Differences;
import org.isopach.job.CrossCheckResult;
import org.isopach.report.Cautions;
import org.isopach.report.table.CrossAgreementFile;
import org.isopach.report.table.CrossCheckFile;
import org.isopach.report.table.TableNumber;

/** Prints what others found beside ours: object by object, then what was not compared and why. */
final class CrosscheckPrinter {
  private static final Set<String> WHOLE = Set.of("", "cells", "ascans", "scan");

  private final PrintWriter out;

  CrosscheckPrinter(PrintWriter out) {
    this.out = out;
  }

  void print(CrossCheckResult result) {
    Map<List<String>, List<CrossLine>> objects = new LinkedHashMap<>();
    for (CrossLine line : result.lines()) {
      objects
          .computeIfAbsent(
              List.of(line.scan().sopUid(), line.object().kind(), line.object().uid()),
              key -> new ArrayList<>())
          .add(line);
    }
    objects.values().forEach(this::object);
    new ResultPrinter(out).files(result.job());
    out.println();
    out.println(Cautions.LINE);
  }

  private void object(List<CrossLine> lines) {
    CrossLine first = lines.get(0);
    CrossLine.Source object = first.object();
    out.println();
    out.println(
        PlainText.of(
            object.kind()
                + " "
                + object.uid()
                + (object.software().isEmpty() ? "" : " by " + object.software())));
    out.println(PlainText.of("  " + where(first, lines)));
    lines.stream().filter(line -> line.verdict().comparable()).forEach(this::compared);
    remarks(lines);
    refusals(lines);
  }

  private static String where(CrossLine first, List<CrossLine> lines) {
    String matchedBy = first.object().matchedBy();
    if (matchedBy.isEmpty()) {
      return "belongs to no scan of the inputs";
    }
    String laid =
        lines.stream()
            .map(line -> line.object().placedBy())
            .filter(way -> !way.isEmpty())
            .distinct()
            .collect(Collectors.joining(" and "));
    return "of the scan "
        + first.scan().sopUid()
        + ", matched by "
        + matchedBy
        + (laid.isEmpty() ? "" : ", laid on it by " + laid);
  }

  /** Says once what a reader of the differences must know, and of which it holds. */
  private void remarks(List<CrossLine> lines) {
    List<CrossLine> compared = lines.stream().filter(line -> line.verdict().comparable()).toList();
    Map<String, List<String>> remarks = new LinkedHashMap<>();
    for (CrossLine line : compared) {
      if (!line.verdict().remark().isEmpty()) {
        remarks
            .computeIfAbsent(line.verdict().remark(), key -> new ArrayList<>())
            .add(line.pair().ours());
      }
    }
    remarks.forEach(
        (remark, of) -> {
          String some =
              of.size() == compared.size() ? "" : String.join(", ", new LinkedHashSet<>(of)) + ": ";
          out.println(PlainText.of("  note: " + some + remark));
        });
  }

  /** Says what was not compared, together what has one definition and one reason. */
  private void refusals(List<CrossLine> lines) {
    Map<List<String>, List<String>> places = new LinkedHashMap<>();
    for (CrossLine line : lines) {
      if (!line.verdict().comparable()) {
        List<String> at =
            places.computeIfAbsent(
                List.of(words(line.pair()), line.verdict().reason()), key -> new ArrayList<>());
        if (!WHOLE.contains(line.pair().place())) {
          at.add(line.pair().place());
        }
      }
    }
    places.forEach(
        (what, at) ->
            out.println(
                PlainText.of(
                    "  not compared: "
                        + what.get(0)
                        + (at.isEmpty() ? "" : ", " + String.join(", ", at))
                        + ": "
                        + what.get(1))));
  }

  private static String words(CrossLine.Pair pair) {
    if (!pair.theirs().isEmpty()) {
      return pair.theirs();
    }
    return pair.ours().isEmpty() ? "all of it" : "our " + pair.ours();
  }

  private void compared(CrossLine line) {
    CrossLine.Pair pair = line.pair();
    int decimals = pair.quantity() == CrossLine.Quantity.VOLUME ? 3 : 2;
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(
            Locale.ROOT,
            "  %-15s %-15s theirs %9s  ours %9s  difference %9s %s",
            pair.ours(),
            pair.place(),
            number(line.theirs(), decimals),
            number(line.ours(), decimals),
            number(line.difference(), decimals),
            pair.quantity().unit()));
    line.differences().flatMap(Differences::spread).ifPresent(spread -> text.append(words(spread)));
    line.overlap()
        .ifPresent(
            overlap ->
                text.append(
                    overlap.dice().isPresent()
                        ? String.format(Locale.ROOT, "; Dice %.3f", overlap.dice().getAsDouble())
                        : "; neither has any"));
    out.println(PlainText.of(text.toString()));
  }

  private static String words(Differences.Spread spread) {
    return "; SD "
        + TableNumber.fixed(spread.sd(), 2)
        + ", mean absolute "
        + TableNumber.fixed(spread.meanAbsolute(), 2)
        + ", 95 % up to "
        + TableNumber.fixed(spread.percentile95(), 2);
  }

  private static String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), decimals) : "n/m";
  }

  static void json(PrintWriter out, CrossCheckResult result) throws IOException {
    ObjectNode root = ResultJson.JSON.createObjectNode();
    root.put("out", result.job().folder().root().toString());
    root.set(
        "crosscheck",
        ResultJson.rows(CrossCheckFile.columns(), CrossCheckFile.rows(result.lines())));
    root.set(
        "agreement",
        ResultJson.rows(
            CrossAgreementFile.columns(), CrossAgreementFile.rows(result.agreements())));
    root.set("run", ResultJson.JSON.valueToTree(result.job().run()));
    ResultJson.print(out, root);
  }
}

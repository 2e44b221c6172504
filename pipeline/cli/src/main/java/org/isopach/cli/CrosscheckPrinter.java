package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.Differences;
import org.isopach.job.CrossCheckResult;
import org.isopach.report.Cautions;
import org.isopach.report.table.CrossAgreementFile;
import org.isopach.report.table.CrossCheckFile;

/** Prints what others found beside ours: object by object, then what was not compared and why. */
final class CrosscheckPrinter {
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
    out.println(
        PlainText.of(
            object.matchedBy().isEmpty()
                ? "  belongs to no scan of the inputs"
                : "  of the scan " + first.scan().sopUid() + ", by " + object.matchedBy()));
    lines.stream().filter(line -> line.verdict().comparable()).forEach(this::compared);
    Map<String, List<String>> reasons = new LinkedHashMap<>();
    lines.stream()
        .filter(line -> !line.verdict().comparable())
        .forEach(
            line ->
                reasons
                    .computeIfAbsent(line.verdict().reason(), key -> new ArrayList<>())
                    .add(names(line.pair())));
    reasons.forEach(
        (reason, names) ->
            out.println(PlainText.of("  not compared: " + String.join(", ", names) + reason)));
  }

  private static String names(CrossLine.Pair pair) {
    String text = (pair.theirs() + " " + pair.place()).strip();
    return text.isEmpty() ? "" : text + ": ";
  }

  private void compared(CrossLine line) {
    CrossLine.Pair pair = line.pair();
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(
            Locale.ROOT,
            "  %-15s %-15s theirs %9s  ours %9s  difference %9s %s",
            pair.ours(),
            pair.place(),
            number(line.theirs()),
            number(line.ours()),
            number(line.difference()),
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
    return String.format(
        Locale.ROOT,
        "; SD %.2f, mean absolute %.2f, 95 %% below %.2f",
        spread.sd(),
        spread.meanAbsolute(),
        spread.percentile95());
  }

  private static String number(OptionalDouble value) {
    return value.isPresent() ? String.format(Locale.ROOT, "%.2f", value.getAsDouble()) : "n/m";
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

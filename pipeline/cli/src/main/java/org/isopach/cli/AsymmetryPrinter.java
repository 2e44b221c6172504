package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.OptionalDouble;
import org.isopach.analysis.asymmetry.AsymmetryTable;
import org.isopach.analysis.asymmetry.SectorAsymmetry;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.job.AsymmetryResult;
import org.isopach.report.Cautions;
import org.isopach.report.table.AsymmetryFile;

/** Prints how the two eyes of patients differ. */
final class AsymmetryPrinter {
  private final PrintWriter out;

  AsymmetryPrinter(PrintWriter out) {
    this.out = out;
  }

  void print(AsymmetryResult result) {
    String before = "";
    for (AsymmetryTable table : result.tables()) {
      String pair = table.right().sopUid() + " " + table.left().sopUid();
      if (!before.equals(pair)) {
        out.println();
        out.println(
            "Patient "
                + PlainText.of(table.right().patientId())
                + ": right eye "
                + ResultPrinter.time(table.right())
                + " minus left eye "
                + ResultPrinter.time(table.left())
                + ", um");
        out.println(ResultPrinter.HEADING);
        before = pair;
      }
      out.println(
          ResultPrinter.line(
              LayerCatalogue.shortName(table.layer()),
              table.sectors().stream().map(AsymmetryPrinter::difference).toList(),
              true));
    }
    new ResultPrinter(out).files(result.job());
    out.println();
    out.println(Cautions.LINE);
  }

  static void json(PrintWriter out, AsymmetryResult result) throws IOException {
    ObjectNode root = ResultJson.JSON.createObjectNode();
    root.put("out", result.job().folder().root().toString());
    root.set(
        "asymmetry", ResultJson.rows(AsymmetryFile.columns(), AsymmetryFile.rows(result.tables())));
    root.set("run", ResultJson.JSON.valueToTree(result.job().run()));
    ResultJson.print(out, root);
  }

  private static OptionalDouble difference(SectorAsymmetry sector) {
    return sector instanceof SectorAsymmetry.Given given
        ? OptionalDouble.of(given.differenceUm())
        : OptionalDouble.empty();
  }
}

package org.isopach.cli.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.cli.page.Markdown;

/**
 * The figures of the whole job.
 *
 * @param few uncompressed volumes to all files of a run
 * @param tables the same to the tables only
 * @param stages processor time of each stage and kind of file
 * @param packed the same volumes in JPEG 2000 to the tables only; empty when not measured
 * @param manyVolumes how many volumes the look at memory had
 * @param many heap of that run; empty when not measured
 * @param grownBytes what was alive after all of them less after the first few
 */
record BenchPage(
    Comparison few,
    Comparison tables,
    StageTimes.Found stages,
    Optional<Comparison> packed,
    int manyVolumes,
    Optional<HeapWatch.Use> many,
    long grownBytes) {
  private static final double MIB = 1 << 20;
  private static final double LEAST_SPEED = 2;
  private static final double MOST_MIB = 512;
  private static final double MOST_RATIO = 3;
  private static final double MOST_PACKED_RATIO = 1.3;

  /** What the heap may be fuller by with many volumes: their identities, tables and findings. */
  private static final double MOST_GROWTH_MIB = 16;

  void addTo(Markdown page) {
    page.heading(2, "The whole job")
        .paragraph(
            "Volumes of 49 frames x 512 A-scans x 496 depths, 8 bits, folder to all files of a run,"
                + " warm. Decoding only is the walk, the digests and every frame as grey values.")
        .table(List.of("figure", "found", "bar", "met"), bars());
    page.heading(3, "Comparison")
        .table(
            List.of(
                "files",
                "volumes",
                "decoding s",
                "job s",
                "ratio",
                "volumes/s",
                "segment / map / write ms",
                "peak heap MiB",
                "after collection MiB"),
            comparisons());
    page.heading(3, "Stages")
        .paragraph(
            "Processor time of one volume, uncompressed, on one thread, in ms: reading and measuring"
                + " called one by one, files as a run writes them that is not told otherwise. Below"
                + " it, all that such a run's own threads took; the collector of garbage and the"
                + " compiler come on top of both.")
        .table(List.of("stage", "ms", "share"), stageRows());
    page.heading(4, "Written when asked for")
        .paragraph(
            "The same for what is written only when it is asked for, by a run over "
                + stages.visits()
                + " visits of one eye with every output, every layer pictured and the first visit as"
                + " baseline. FHIR transactions are one piece for all of a run.")
        .table(List.of("files", "pieces", "ms a piece"), askedRows());
  }

  private List<List<String>> bars() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(speed("folder to tables, volumes per second", tables));
    rows.add(speed("folder to all files, volumes per second", few));
    rows.add(ratio("folder to tables by decoding", tables));
    rows.add(ratio("folder to all files by decoding", few));
    rows.add(
        packed
            .map(
                one ->
                    row(
                        "folder to tables by decoding, JPEG 2000",
                        one.ratio(),
                        2,
                        "≤ 1.3",
                        one.ratio() <= MOST_PACKED_RATIO))
            .orElse(
                List.of("folder to tables by decoding, JPEG 2000", "not measured", "≤ 1.3", "–")));
    double peak = Math.max(few.use().peak(), many.map(HeapWatch.Use::peak).orElse(0L)) / MIB;
    rows.add(row("peak heap, MiB", peak, 0, "≤ 512", peak <= MOST_MIB));
    rows.add(growth());
    return rows;
  }

  private static List<String> speed(String figure, Comparison one) {
    double speed = one.volumesPerSecond();
    return row(figure, speed, 2, "≥ 2", speed >= LEAST_SPEED);
  }

  private static List<String> ratio(String figure, Comparison one) {
    return row(figure, one.ratio(), 2, "≤ 3", one.ratio() <= MOST_RATIO);
  }

  private List<String> growth() {
    String what =
        "heap alive after " + manyVolumes + " volumes less after " + LiveHeap.FEW + ", MiB";
    if (many.isEmpty()) {
      return List.of(what, "not measured", "≤ 16", "–");
    }
    double grown = grownBytes / MIB;
    return row(what, grown, 1, "≤ 16", grown <= MOST_GROWTH_MIB);
  }

  private static List<String> row(
      String figure, double value, int decimals, String bar, boolean met) {
    return List.of(figure, Markdown.number(value, decimals), bar, met ? "yes" : "**no**");
  }

  private List<List<String>> comparisons() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(comparison("uncompressed, all files", few));
    rows.add(comparison("uncompressed, tables", tables));
    packed.ifPresent(one -> rows.add(comparison("JPEG 2000, tables", one)));
    many.ifPresent(
        use ->
            rows.add(
                List.of(
                    "uncompressed",
                    Integer.toString(manyVolumes),
                    "–",
                    "–",
                    "–",
                    "–",
                    "–",
                    mib(use.peak()),
                    mib(use.afterCollection()))));
    return rows;
  }

  private static List<String> comparison(String files, Comparison one) {
    return List.of(
        files,
        Integer.toString(one.volumes()),
        Markdown.number(one.decodeSeconds(), 2),
        Markdown.number(one.jobSeconds(), 2),
        Markdown.number(one.ratio(), 2),
        Markdown.number(one.volumesPerSecond(), 2),
        Markdown.number(one.stages().segment(), 0)
            + " / "
            + Markdown.number(one.stages().map(), 0)
            + " / "
            + Markdown.number(one.stages().write(), 0),
        mib(one.use().peak()),
        mib(one.use().afterCollection()));
  }

  private static String mib(long bytes) {
    return Markdown.number(bytes / MIB, 0);
  }

  private List<List<String>> stageRows() {
    double whole = stages.stages().values().stream().mapToDouble(Double::doubleValue).sum();
    List<List<String>> rows = new ArrayList<>();
    stages
        .stages()
        .forEach(
            (name, ms) ->
                rows.add(List.of(name, Markdown.number(ms, 0), Markdown.percent(ms / whole, 0))));
    rows.add(List.of("together", Markdown.number(whole, 0), "100 %"));
    double run = stages.wholeRun();
    rows.add(List.of("a whole run", Markdown.number(run, 0), Markdown.percent(run / whole, 0)));
    return rows;
  }

  private List<List<String>> askedRows() {
    List<List<String>> rows = new ArrayList<>();
    stages
        .asked()
        .forEach(
            (kind, spent) ->
                rows.add(
                    List.of(
                        kind.words(),
                        Integer.toString(spent.pieces()),
                        Markdown.number(spent.millis() / spent.pieces(), 1))));
    return rows;
  }
}

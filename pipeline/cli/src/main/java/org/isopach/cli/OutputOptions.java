package org.isopach.cli;

import java.util.EnumSet;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import org.isopach.job.Output;
import picocli.CommandLine.Option;

/** What a run writes beside its tables. */
final class OutputOptions {
  @Option(
      names = "--skip",
      paramLabel = "WHAT",
      split = ",",
      completionCandidates = Skippable.class,
      description = "Do not write ${COMPLETION-CANDIDATES}.")
  private List<Output> skipped;

  @Option(
      names = "--fhir",
      description =
          "Also write the numbers of every eye and visit as FHIR R4 resources; 'isopach post' sends"
              + " them to a server.")
  private boolean fhir;

  /** Returns what is to be written. */
  Set<Output> wanted() {
    Set<Output> wanted = EnumSet.copyOf(Output.USUAL);
    if (fhir) {
      wanted.add(Output.FHIR);
    }
    if (skipped != null) {
      skipped.forEach(wanted::remove);
    }
    return wanted;
  }

  /** What there is to skip. */
  static final class Skippable implements Iterable<String> {
    @Override
    public Iterator<String> iterator() {
      return Output.USUAL.stream().map(Output::toString).iterator();
    }
  }
}

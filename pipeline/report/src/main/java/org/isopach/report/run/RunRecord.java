package org.isopach.report.run;

import java.util.List;
import java.util.Map;
import org.isopach.report.Software;

/**
 * What {@code run.json} holds. Timings are the only part that differs between two runs of the same
 * input and parameters.
 *
 * @param software the program
 * @param cautions what a reader must know about the numbers
 * @param command what was asked for
 * @param parameters names and values, in a fixed order; values are text, numbers or lists of them
 * @param filesSeen number of files looked at, of any kind
 * @param inputs the objects read, in the order of the tables
 * @param findings what there was to say about inputs
 * @param outputs the files written, by name
 * @param exitCode the code the program ended with
 * @param timings how long each object took
 */
public record RunRecord(
    Software software,
    List<String> cautions,
    String command,
    Map<String, Object> parameters,
    int filesSeen,
    List<Input> inputs,
    List<FindingEntry> findings,
    List<OutputEntry> outputs,
    int exitCode,
    Timings timings) {

  /** An object read: what it is, its digest, and what became of it. */
  public record Input(
      String kind,
      String location,
      String sha256,
      String patientId,
      String studyUid,
      String seriesUid,
      String sopUid,
      String outcome) {}

  /** A finding in words. */
  public record FindingEntry(
      String kind, String gravity, String subject, String detail, String advice) {}

  /** A file written, its name relative to the run folder. */
  public record OutputEntry(String file, String sha256) {}

  /** Wall-clock milliseconds. */
  public record Timings(long totalMillis, List<ObjectTime> objects) {
    public Timings {
      objects = List.copyOf(objects);
    }
  }

  /** Milliseconds one object took to be segmented, mapped and written. */
  public record ObjectTime(String sopUid, long segmentMillis, long mapMillis, long writeMillis) {}

  public RunRecord {
    cautions = List.copyOf(cautions);
    inputs = List.copyOf(inputs);
    findings = List.copyOf(findings);
    outputs = List.copyOf(outputs);
  }
}

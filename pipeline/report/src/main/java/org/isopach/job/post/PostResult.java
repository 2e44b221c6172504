package org.isopach.job.post;

import java.util.List;

/**
 * What became of the FHIR files of a run.
 *
 * @param posted those the server took
 * @param failures those it did not take, or that were not sent
 */
public record PostResult(List<Posted> posted, List<Failure> failures) {
  public PostResult {
    posted = List.copyOf(posted);
    failures = List.copyOf(failures);
  }

  /**
   * A file that the server took.
   *
   * @param file its name in the run folder
   * @param resources how many it has
   * @param created how many of them were new to the server
   */
  public record Posted(String file, int resources, int created) {}

  /**
   * A file that the server has not.
   *
   * @param file its name in the run folder
   * @param reason why
   */
  public record Failure(String file, String reason) {}
}

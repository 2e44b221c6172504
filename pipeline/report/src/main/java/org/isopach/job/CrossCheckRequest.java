package org.isopach.job;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.region.RegionKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.derive.RegionCode;

/**
 * What is to be set beside one another.
 *
 * @param job what to measure and where to
 * @param meanings what codes of other systems' segments mean, as the caller says
 */
public record CrossCheckRequest(JobRequest job, List<SegmentMeaning> meanings) {

  /**
   * What a code of a segment means.
   *
   * @param scheme its coding scheme
   * @param value its value
   * @param kind the region of ours
   */
  public record SegmentMeaning(String scheme, String value, RegionKind kind) {}

  public CrossCheckRequest {
    Objects.requireNonNull(job, "job");
    meanings = List.copyOf(meanings);
  }

  /** Returns the region that a segment's code means: our own codes, then what the caller says. */
  Optional<RegionKind> kind(Code code) {
    return RegionCode.kind(code)
        .or(
            () ->
                meanings.stream()
                    .filter(one -> one.scheme().equals(code.scheme()))
                    .filter(one -> one.value().equals(code.value()))
                    .map(SegmentMeaning::kind)
                    .findFirst());
  }
}

package org.isopach.job;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.region.RegionKind;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.derive.RegionCode;

/**
 * What is to be set beside one another.
 *
 * @param job what to measure and where to
 * @param meanings what codes of other systems' segments mean, as the caller says
 * @param changes what codes of other systems' maps are the change of, as the caller says
 */
public record CrossCheckRequest(
    JobRequest job, List<SegmentMeaning> meanings, List<ChangeMeaning> changes) {

  /**
   * What a code of a segment means.
   *
   * @param scheme its coding scheme
   * @param value its value
   * @param kind the region of ours
   */
  public record SegmentMeaning(String scheme, String value, RegionKind kind) {}

  /**
   * What a code of a map is the change of, the later scan less the earlier.
   *
   * @param scheme its coding scheme
   * @param value its value
   * @param layer the layer of ours
   */
  public record ChangeMeaning(String scheme, String value, Layer layer) {}

  public CrossCheckRequest {
    Objects.requireNonNull(job, "job");
    meanings = List.copyOf(meanings);
    changes = List.copyOf(changes);
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

  /** Returns the layer whose change a code of a map means, as the caller says. */
  Optional<Layer> changed(Code code) {
    return changes.stream()
        .filter(one -> one.scheme().equals(code.scheme()))
        .filter(one -> one.value().equals(code.value()))
        .map(ChangeMeaning::layer)
        .findFirst();
  }
}

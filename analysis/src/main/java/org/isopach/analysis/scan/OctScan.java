package org.isopach.analysis.scan;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.ScanPath;

/**
 * One tomography object: its geometry, and its frames on demand.
 *
 * <p>What is optional here is what an object may lack and still have its boundaries found: without
 * a path or a laterality no map, grid or change is made from it.
 *
 * @param identity who, when, which object
 * @param document where it came from
 * @param laterality which eye; empty when the object does not say or contradicts itself
 * @param size frames, A-scans, depths
 * @param axial µm per depth pixel
 * @param path where the A-scans lie; its shape is that of {@code size}; empty when not stated
 * @param reference the fundus image the path was placed on; empty when placed without one
 * @param statedAxialLengthMm the eye's axial length in mm as the object gives it; empty when absent
 * @param grey the range of grey values
 * @param frames reads the frames
 * @param born when the patient was born; empty when not stated or not usable
 * @param device which instrument made the scan; empty when its model is not stated
 */
public record OctScan(
    ScanIdentity identity,
    SourceDocument document,
    Optional<Laterality> laterality,
    ScanSize size,
    AxialScale axial,
    Optional<ScanPath> path,
    Optional<ReferenceImage> reference,
    Optional<Double> statedAxialLengthMm,
    GreyRange grey,
    FrameSource frames,
    Optional<BirthDate> born,
    Optional<DeviceModel> device) {
  public OctScan {
    Objects.requireNonNull(identity, "identity");
    Objects.requireNonNull(document, "document");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(size, "size");
    Objects.requireNonNull(axial, "axial");
    Objects.requireNonNull(path, "path");
    Objects.requireNonNull(reference, "reference");
    Objects.requireNonNull(statedAxialLengthMm, "statedAxialLengthMm");
    Objects.requireNonNull(grey, "grey");
    Objects.requireNonNull(frames, "frames");
    Objects.requireNonNull(born, "born");
    Objects.requireNonNull(device, "device");
    if (path.isPresent()
        && (path.get().frames() != size.frames() || path.get().ascans() != size.ascans())) {
      throw new IllegalArgumentException(
          "the path is for "
              + path.get().frames()
              + " x "
              + path.get().ascans()
              + " A-scans, the scan has "
              + size.frames()
              + " x "
              + size.ascans());
    }
  }

  /** Makes a scan of which neither birth date nor instrument is known. */
  public OctScan(
      ScanIdentity identity,
      SourceDocument document,
      Optional<Laterality> laterality,
      ScanSize size,
      AxialScale axial,
      Optional<ScanPath> path,
      Optional<ReferenceImage> reference,
      Optional<Double> statedAxialLengthMm,
      GreyRange grey,
      FrameSource frames) {
    this(
        identity,
        document,
        laterality,
        size,
        axial,
        path,
        reference,
        statedAxialLengthMm,
        grey,
        frames,
        Optional.empty(),
        Optional.empty());
  }

  /**
   * Returns the patient's age at the acquisition in years of 365.25 days; empty when either day is
   * not known.
   */
  public Optional<Double> ageYears() {
    return born.flatMap(
        birth -> identity.acquired().map(time -> birth.ageYearsAt(time.toLocalDate())));
  }
}

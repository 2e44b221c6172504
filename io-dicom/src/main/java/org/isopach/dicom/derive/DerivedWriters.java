package org.isopach.dicom.derive;

import org.isopach.dicom.DicomObjectWriter;

/**
 * Writers of what the standard has beside thickness maps.
 *
 * @param gridReports sectors as reports
 * @param heightMaps boundaries as height maps
 * @param regions fluid and other regions as segmentations
 * @param parametricMaps maps that have no place in the thickness map's code list
 * @param enFaces projections as en face images
 * @param documents reports as encapsulated documents
 */
public record DerivedWriters(
    MacularGridReportWriter gridReports,
    HeightMapWriter heightMaps,
    RegionSegmentationWriter regions,
    ParametricMapWriter parametricMaps,
    EnFaceWriter enFaces,
    EncapsulatedPdfWriter documents) {
  /**
   * Returns writers that share their ways to headers and files.
   *
   * @param headers gives the source object's attributes
   * @param writer puts an object into a file
   */
  public static DerivedWriters of(SourceHeaders headers, DicomObjectWriter writer) {
    return new DerivedWriters(
        new MacularGridReportWriter(headers, writer),
        new HeightMapWriter(headers, writer),
        new RegionSegmentationWriter(headers, writer),
        new ParametricMapWriter(headers, writer),
        new EnFaceWriter(headers, writer),
        new EncapsulatedPdfWriter(headers, writer));
  }
}

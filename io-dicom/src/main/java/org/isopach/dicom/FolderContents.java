package org.isopach.dicom;

import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistration;

/**
 * What was found in files and folders, in an order that does not depend on that of the files: scans
 * and maps by patient, eye (right first), time of acquisition and SOP instance UID; findings by the
 * place of their file.
 *
 * @param scans the tomographies
 * @param descriptions one for each scan, at the same index
 * @param maps the thickness maps
 * @param registrations how coordinate systems of these scans lie to each other, as objects state
 *     it; in the order of their files
 * @param derived every object that says what somebody found in a scan, thickness maps among them;
 *     by patient, time and UID
 * @param findings what there is to say about files and objects
 * @param filesSeen number of files looked at, of any kind
 */
public record FolderContents(
    List<OctScan> scans,
    List<ScanDescription> descriptions,
    List<ThicknessMap> maps,
    List<StatedRegistration> registrations,
    List<DerivedObject> derived,
    List<Finding> findings,
    int filesSeen) {
  public FolderContents {
    scans = List.copyOf(scans);
    descriptions = List.copyOf(descriptions);
    maps = List.copyOf(maps);
    registrations = List.copyOf(registrations);
    derived = List.copyOf(derived);
    findings = List.copyOf(findings);
    if (scans.size() != descriptions.size()) {
      throw new IllegalArgumentException(
          scans.size() + " scans need as many descriptions, had " + descriptions.size());
    }
  }

  /** Makes contents without any registration or object by others. */
  public FolderContents(
      List<OctScan> scans,
      List<ScanDescription> descriptions,
      List<ThicknessMap> maps,
      List<Finding> findings,
      int filesSeen) {
    this(scans, descriptions, maps, List.of(), List.of(), findings, filesSeen);
  }
}

package org.isopach.dicom.derive;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * An object that a derived one refers to.
 *
 * @param studyUid its study
 * @param seriesUid its series
 * @param sopClassUid what it is
 * @param sopUid which it is
 */
record InstanceReference(String studyUid, String seriesUid, String sopClassUid, String sopUid) {
  private static final String TOMOGRAPHY = "1.2.840.10008.5.1.4.1.1.77.1.5.4";

  static InstanceReference of(OctScan scan) {
    return new InstanceReference(
        scan.identity().studyUid(),
        scan.identity().seriesUid(),
        TOMOGRAPHY,
        scan.identity().sopUid());
  }

  static InstanceReference of(ReferenceImage image) {
    return new InstanceReference(
        image.studyUid(), image.seriesUid(), image.sopClassUid(), image.sopUid());
  }

  /** Returns the start of an item that names the object. */
  Dataset.Builder toItem() {
    return Dataset.builder()
        .text(Tags.REFERENCED_SOP_CLASS_UID, Vr.UI, sopClassUid)
        .text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, sopUid);
  }

  /**
   * Adds the Common Instance Reference module (DICOM PS3.3, C.12.2): objects of the study itself by
   * series, those of other studies by study and series, in the order of their UIDs.
   */
  static void addAll(
      Dataset.Builder object, String ownStudyUid, Collection<InstanceReference> references) {
    Map<String, Map<String, Set<InstanceReference>>> studies = new TreeMap<>();
    for (InstanceReference one : references) {
      studies
          .computeIfAbsent(one.studyUid, k -> new TreeMap<>())
          .computeIfAbsent(one.seriesUid, k -> new LinkedHashSet<>())
          .add(one);
    }
    Map<String, Set<InstanceReference>> own = studies.remove(ownStudyUid);
    if (own != null) {
      object.items(Tags.REFERENCED_SERIES_SEQUENCE, series(own));
    }
    List<Dataset> others = new ArrayList<>();
    studies.forEach(
        (study, content) ->
            others.add(
                Dataset.builder()
                    .text(Tags.STUDY_INSTANCE_UID, Vr.UI, study)
                    .items(Tags.REFERENCED_SERIES_SEQUENCE, series(content))
                    .build()));
    if (!others.isEmpty()) {
      object.items(Tags.STUDIES_CONTAINING_OTHER_REFERENCED_INSTANCES_SEQUENCE, others);
    }
  }

  private static List<Dataset> series(Map<String, Set<InstanceReference>> content) {
    List<Dataset> items = new ArrayList<>();
    content.forEach(
        (uid, instances) ->
            items.add(
                Dataset.builder()
                    .text(Tags.SERIES_INSTANCE_UID, Vr.UI, uid)
                    .items(
                        Tags.REFERENCED_INSTANCE_SEQUENCE,
                        instances.stream().map(one -> one.toItem().build()).toList())
                    .build()));
    return items;
  }
}

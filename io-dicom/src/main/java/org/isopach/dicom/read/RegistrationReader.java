package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.analysis.scan.StatedRegistration;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.space.AffineMatrix;
import org.isopach.dicom.space.FundusPlane;
import org.isopach.dicom.space.NotInPlaneException;

/**
 * Turns a Spatial Registration object into statements about pairs of the folder's coordinate
 * systems (DICOM PS3.3, A.39 and C.20.2).
 *
 * <p>Each item takes points of what it registers to the registered system; two items together say
 * how theirs lie to each other. An item names its system by Frame of Reference UID, or else by
 * images: fundus images count image-relative, a tomography in its own patient-relative system.
 */
final class RegistrationReader {
  private static final int MOST_ITEMS = 64;
  private static final double SAME = 1e-9;
  private static final int MOST_IMAGES = 256;

  private final KnownFrames known;

  RegistrationReader(KnownFrames known) {
    this.known = known;
  }

  /** A system of the folder, how the fundus lies in it, and where its points are taken. */
  private record Registered(FundusPlane plane, AffineMatrix toCommon) {}

  /**
   * Returns what the object states; nothing is wrong with the folder when that is nothing.
   *
   * @param sha256 the file's digest
   * @param remarks receives why something was left out of account
   */
  List<StatedRegistration> read(ParsedObject object, String sha256, Remarks remarks) {
    List<Dataset> items = object.attributes().items(Tags.REGISTRATION_SEQUENCE);
    if (items.isEmpty() || items.size() > MOST_ITEMS) {
      ignore(remarks, "Registration Sequence (0070,0308) has " + items.size() + " items");
      return List.of();
    }
    Map<FundusFrame, Registered> systems = new LinkedHashMap<>();
    try {
      common(object.attributes())
          .ifPresent(
              frame ->
                  systems.put(
                      frame, new Registered(FundusPlane.ofPatient(), AffineMatrix.IDENTITY)));
      for (int i = 0; i < items.size(); i++) {
        add(items.get(i), "item " + (i + 1), systems);
      }
    } catch (Unusable e) {
      ignore(remarks, e.getMessage());
      return List.of();
    }
    if (systems.size() < 2) {
      ignore(remarks, "it registers no two coordinate systems that scans here are placed in");
      return List.of();
    }
    return pairs(object, systems, new SourceDocument(object.location(), sha256), remarks);
  }

  /** Returns the registered system when a scan is placed in it. */
  private Optional<FundusFrame> common(Dataset object) {
    return object
        .text(Tags.FRAME_OF_REFERENCE_UID)
        .map(uid -> new FundusFrame(FundusFrame.Kind.PATIENT, uid))
        .filter(frame -> known.patient(frame).isPresent());
  }

  private void add(Dataset item, String name, Map<FundusFrame, Registered> systems)
      throws Unusable {
    Map<FundusFrame, FundusPlane> named = named(item, name);
    if (named.isEmpty()) {
      return;
    }
    AffineMatrix matrix;
    try {
      matrix = RegistrationMatrix.of(item);
    } catch (Unusable e) {
      throw new Unusable(name + ": " + e.getMessage());
    }
    for (Map.Entry<FundusFrame, FundusPlane> one : named.entrySet()) {
      Registered now = new Registered(one.getValue(), matrix);
      Registered before = systems.putIfAbsent(one.getKey(), now);
      if (before != null && !before.toCommon().near(matrix, SAME)) {
        throw new Unusable(name + " places a second time what has a place: " + one.getKey().uid());
      }
    }
  }

  /** Returns the folder's systems that an item registers, none when it is about others. */
  private Map<FundusFrame, FundusPlane> named(Dataset item, String name) throws Unusable {
    Map<FundusFrame, FundusPlane> named = new LinkedHashMap<>();
    String uid = item.text(Tags.FRAME_OF_REFERENCE_UID).orElse("");
    List<Dataset> images = item.items(Tags.REFERENCED_IMAGE_SEQUENCE);
    if (!uid.isEmpty()) {
      FundusFrame frame = new FundusFrame(FundusFrame.Kind.PATIENT, uid);
      known.patient(frame).ifPresent(plane -> named.put(frame, plane));
      return named;
    }
    if (images.isEmpty()) {
      throw new Unusable(name + " names neither a Frame of Reference UID nor an image");
    }
    for (Dataset image : images.subList(0, Math.min(images.size(), MOST_IMAGES))) {
      image(image, name, named);
    }
    return named;
  }

  private void image(Dataset reference, String name, Map<FundusFrame, FundusPlane> named)
      throws Unusable {
    String uid = reference.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElse("");
    Optional<FundusFrame> ofScan = known.ofScan(uid);
    if (ofScan.isPresent()) {
      named.put(ofScan.get(), FundusPlane.ofPatient());
      return;
    }
    FundusFrame frame = new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, uid);
    Optional<FundusPlane> plane = known.image(frame);
    if (plane.isEmpty()) {
      return;
    }
    if (!reference.texts(Tags.REFERENCED_FRAME_NUMBER).stream().allMatch("1"::equals)) {
      throw new Unusable(
          name + " refers to single frames of " + uid + ", frames are placed on its first");
    }
    named.put(frame, plane.get());
  }

  private List<StatedRegistration> pairs(
      ParsedObject object,
      Map<FundusFrame, Registered> systems,
      SourceDocument document,
      Remarks remarks) {
    List<StatedRegistration> stated = new ArrayList<>();
    List<FundusFrame> frames = List.copyOf(systems.keySet());
    for (int to = 0; to < frames.size(); to++) {
      for (int from = to + 1; from < frames.size(); from++) {
        try {
          known.requireOneEye(object.attributes(), frames.get(from), frames.get(to));
          stated.add(pair(frames.get(from), frames.get(to), systems, document));
        } catch (Unusable | NotInPlaneException e) {
          ignore(remarks, e.getMessage());
        }
      }
    }
    return stated;
  }

  private static StatedRegistration pair(
      FundusFrame from,
      FundusFrame to,
      Map<FundusFrame, Registered> systems,
      SourceDocument document)
      throws NotInPlaneException {
    Registered a = systems.get(from);
    Registered b = systems.get(to);
    AffineMatrix space = a.toCommon().then(b.toCommon().inverse());
    return new StatedRegistration(
        from, to, FundusPlane.inPlane(space, a.plane(), b.plane()), document);
  }

  private static void ignore(Remarks remarks, String why) {
    remarks.add(FindingKind.REGISTRATION_IGNORED, why);
  }
}

package org.isopach.job;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.read.PlacedMap;

/**
 * The two scans that a map is the change between.
 *
 * @param layer the layer that changed
 * @param baseline what is subtracted
 * @param followUp from what
 */
record ChangePair(Layer layer, MeasuredScan baseline, MeasuredScan followUp) {
  /** Why a map cannot be taken for the change between two scans of this run. */
  static final class Unknown extends Exception {
    private static final long serialVersionUID = 1L;

    Unknown(String why) {
      super(why);
    }
  }

  /**
   * Returns the scans of a map.
   *
   * @param scans those of its object that were measured
   * @throws Unknown when it does not say which two scans, or what changed, or they are not there
   */
  static ChangePair of(PlacedMap map, CrossCheckRequest request, List<MeasuredScan> scans)
      throws Unknown {
    Layer layer = layer(map, request);
    if (map.sources().size() != 2) {
      throw new Unknown(
          "a change is between two scans; this map names " + map.sources().size() + " source(s)");
    }
    List<MeasuredScan> two = new ArrayList<>();
    for (String uid : map.sources()) {
      two.add(
          scans.stream()
              .filter(scan -> scan.scan().identity().sopUid().equals(uid))
              .findFirst()
              .orElseThrow(
                  () ->
                      new Unknown(
                          "it is the change between two scans, of which "
                              + uid
                              + " is not among the inputs, or of another patient or eye, or was"
                              + " not measured")));
    }
    return map.quantity().change() || isLater(two.get(0), two.get(1))
        ? new ChangePair(layer, two.get(1), two.get(0))
        : new ChangePair(layer, two.get(0), two.get(1));
  }

  private static Layer layer(PlacedMap map, CrossCheckRequest request) throws Unknown {
    if (!map.quantity().further().isEmpty()) {
      throw new Unknown(
          "its code stands with "
              + String.join(", ", map.quantity().further())
              + ": it is another quantity than the change alone");
    }
    Optional<Layer> layer =
        map.quantity().change()
            ? map.quantity().layer()
            : map.definition().flatMap(request::changed);
    return layer.orElseThrow(
        () -> new Unknown("it is the change of a thickness that no layer of ours has the code of"));
  }

  private static boolean isLater(MeasuredScan one, MeasuredScan other) throws Unknown {
    LocalDateTime a = time(one);
    LocalDateTime b = time(other);
    if (a.equals(b)) {
      throw new Unknown("both of its scans are of " + a + ": which is the later is not known");
    }
    return a.isAfter(b);
  }

  private static LocalDateTime time(MeasuredScan scan) throws Unknown {
    return scan.scan()
        .identity()
        .acquired()
        .orElseThrow(
            () ->
                new Unknown(
                    "which of its two scans is the later is not known: "
                        + scan.scan().identity().sopUid()
                        + " has no time"));
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Quantity;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.read.PlacedMap;

/**
 * Sets maps of change beside ours. An object waits until all of its scans that are among the inputs
 * were tried; only scans of waiting objects are kept, without their labels.
 */
final class ChangeStage {
  private final CrossCheckRequest request;
  private final ScanComparer comparer;
  private final Map<DerivedObject, List<MeasuredScan>> waiting = new LinkedHashMap<>();
  private final Set<String> failed = new HashSet<>();
  private final Map<List<String>, LaidVisits> laid = new LinkedHashMap<>();

  ChangeStage(CrossCheckRequest request, ScanComparer comparer) {
    this.request = request;
    this.comparer = comparer;
  }

  /** Returns the maps of a change among those of an object. */
  List<PlacedMap> changes(List<PlacedMap> maps) {
    return maps.stream().filter(this::isChange).toList();
  }

  private boolean isChange(PlacedMap map) {
    return map.quantity().change() || map.definition().flatMap(request::changed).isPresent();
  }

  /** Forgets how earlier scans lie on one another. */
  void next() {
    laid.clear();
  }

  /** Returns whether an object's other scans are still to come. */
  boolean waits(DerivedObject object) {
    return waiting.containsKey(object);
  }

  /**
   * Takes a scan of an object.
   *
   * @param scans all scans of the object among the inputs
   * @return the lines of its changes; none while it waits
   */
  List<CrossLine> take(
      DerivedObject object,
      List<OctScan> scans,
      MeasuredScan scan,
      List<PlacedMap> changes,
      Function<OctScan, CrossLines> makers)
      throws InterruptedException {
    List<MeasuredScan> there = waiting.computeIfAbsent(object, one -> new ArrayList<>());
    there.add(scan.withoutLabels());
    if (!complete(there, scans)) {
      return List.of();
    }
    waiting.remove(object);
    List<CrossLine> lines = new ArrayList<>();
    for (PlacedMap change : changes) {
      lines.addAll(of(change, there, makers));
    }
    return lines;
  }

  /**
   * Notes that a scan gave nothing.
   *
   * @return the line of an object that waited for it alone; else none
   */
  List<CrossLine> failed(
      DerivedObject object,
      List<OctScan> scans,
      OctScan scan,
      Function<OctScan, CrossLines> makers) {
    failed.add(scan.document().location());
    List<MeasuredScan> there = waiting.get(object);
    if (there == null || !complete(there, scans)) {
      return List.of();
    }
    waiting.remove(object);
    return List.of(
        makers
            .apply(there.get(0).scan())
            .refused(
                pair("", ""),
                "it is the change between two scans, of which "
                    + scan.identity().sopUid()
                    + " was not measured"));
  }

  private boolean complete(List<MeasuredScan> there, List<OctScan> scans) {
    return scans.stream()
        .allMatch(
            scan ->
                failed.contains(scan.document().location())
                    || there.stream().anyMatch(one -> one.scan().equals(scan)));
  }

  private List<CrossLine> of(
      PlacedMap map, List<MeasuredScan> there, Function<OctScan, CrossLines> makers)
      throws InterruptedException {
    try {
      ChangePair pair = ChangePair.of(map, request, there);
      CrossLines lines = makers.apply(pair.followUp().scan());
      return new ChangeCheck(pair, lines).of(map, laid(pair));
    } catch (ChangePair.Unknown e) {
      return List.of(
          makers.apply(there.get(0).scan()).refused(pair(map.title(), ""), e.getMessage()));
    }
  }

  private LaidVisits laid(ChangePair pair) throws ChangePair.Unknown, InterruptedException {
    for (MeasuredScan scan : List.of(pair.baseline(), pair.followUp())) {
      if (scan.place().isEmpty()) {
        throw new ChangePair.Unknown(
            "no map was made here of the scan " + scan.scan().identity().sopUid());
      }
    }
    List<String> key =
        List.of(
            pair.baseline().scan().document().location(),
            pair.followUp().scan().document().location());
    LaidVisits found = laid.get(key);
    if (found == null) {
      found = comparer.lay(pair.baseline(), pair.followUp());
      laid.put(key, found);
    }
    return found;
  }

  private static Pair pair(String theirs, String ours) {
    return new Pair(theirs, ours, ChangeCheck.CELLS, Quantity.CHANGE);
  }
}

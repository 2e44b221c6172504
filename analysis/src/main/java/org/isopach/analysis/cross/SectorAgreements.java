package org.isopach.analysis.cross;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Gathers the sectors of many scans, in the order in which they come. */
public final class SectorAgreements {
  private SectorAgreements() {}

  private record Key(String kind, String software, String layer, String sector) {}

  /**
   * Returns the agreement of every sector that was compared at least once. Of several objects of
   * one kind and software for a scan the first counts.
   */
  public static List<SectorAgreement> of(Collection<CrossLine> lines) {
    Map<Key, List<SectorAgreement.Point>> groups = new LinkedHashMap<>();
    Set<List<String>> seen = new HashSet<>();
    for (CrossLine line : lines) {
      if (!isSector(line)) {
        continue;
      }
      CrossLine.Source object = line.object();
      CrossLine.Pair pair = line.pair();
      Key key = new Key(object.kind(), object.software(), pair.ours(), pair.place());
      boolean first =
          seen.add(List.of(key.kind, key.software, key.layer, key.sector, line.scan().sopUid()));
      if (first) {
        double theirs = line.theirs().getAsDouble();
        double ours = line.ours().getAsDouble();
        groups
            .computeIfAbsent(key, k -> new ArrayList<>())
            .add(
                new SectorAgreement.Point(
                    line.laterality().orElseThrow(), (theirs + ours) / 2, theirs - ours));
      }
    }
    List<SectorAgreement> result = new ArrayList<>();
    groups.forEach(
        (key, points) ->
            result.add(new SectorAgreement(key.kind, key.software, key.layer, key.sector, points)));
    return result;
  }

  private static boolean isSector(CrossLine line) {
    return line.pair().quantity() == CrossLine.Quantity.THICKNESS
        && line.differences().isEmpty()
        && line.laterality().isPresent()
        && line.difference().isPresent();
  }
}

package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.repeat.RepeatSession;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.RepeatedValues;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.analysis.scan.ScanIdentity;

/** Gathers the values of repeats, session by session: small things only. */
final class RepeatTally {
  private final List<RepeatSession> sessions = new ArrayList<>();
  private final Map<Key, List<RepeatedValues>> values = new LinkedHashMap<>();

  private record Key(Layer layer, String sector) {}

  /** One session while it is being measured. */
  static final class Session {
    private final Eye eye;
    private final Map<Key, List<RepeatedValues.Repeat>> repeats = new LinkedHashMap<>();
    private final List<ScanIdentity> scans = new ArrayList<>();

    /** Begins a session with its first repeat. */
    Session(Eye eye, MeasuredScan first) {
      this.eye = eye;
      scans.add(first.scan().identity());
      for (MappedLayer layer : first.layers()) {
        for (SectorResult sector : layer.table().sectors()) {
          List<RepeatedValues.Repeat> own = new ArrayList<>();
          if (sector instanceof Measured measured) {
            own.add(
                new RepeatedValues.Repeat(first.scan().identity().sopUid(), measured.meanUm(), ""));
          }
          repeats.put(new Key(layer.map().layer(), sector.sector()), own);
        }
      }
    }

    /** Adds a later repeat by its change from the first; does nothing when there is none. */
    void add(ScanIdentity scan, ScanChange change) {
      if (!change.layers().isEmpty()) {
        scans.add(scan);
      }
      for (ScanChange.LayerChange layer : change.layers()) {
        for (SectorChange sector : layer.change().table().sectors()) {
          List<RepeatedValues.Repeat> own =
              repeats.get(new Key(layer.change().table().layer(), sector.sector()));
          if (own != null
              && !own.isEmpty()
              && sector instanceof SectorChange.MeasuredChange measured) {
            double um = own.get(0).um() + measured.changeUm();
            own.add(new RepeatedValues.Repeat(scan.sopUid(), um, layer.change().alignment()));
          }
        }
      }
    }
  }

  /** Ends a session; one without a second repeat leaves only its layers and sectors. */
  void add(Session session) {
    int number = sessions.size() + 1;
    if (session.scans.size() > 1) {
      sessions.add(new RepeatSession(number, session.eye, session.scans));
    }
    session.repeats.forEach(
        (key, own) -> {
          List<RepeatedValues> all = values.computeIfAbsent(key, any -> new ArrayList<>());
          if (own.size() > 1) {
            all.add(new RepeatedValues(session.eye, number, own));
          }
        });
  }

  /** Returns the number of different eyes with repeats. */
  long eyes() {
    return sessions.stream().map(RepeatSession::eye).distinct().count();
  }

  /** Returns the study; layers in the order asked for, those that no scan had left out. */
  RepeatabilityStudy study(List<Layer> layers, SectorGrid grid, int withinDays) {
    List<SectorRepeatability> sectors = new ArrayList<>();
    for (Layer layer : layers) {
      for (String sector : sectorNames(grid)) {
        Optional.ofNullable(values.get(new Key(layer, sector)))
            .ifPresent(all -> sectors.add(SectorRepeatability.of(layer, sector, all)));
      }
    }
    return new RepeatabilityStudy(grid, withinDays, sessions, sectors);
  }

  private static List<String> sectorNames(SectorGrid grid) {
    List<String> names = new ArrayList<>();
    grid.sectors().forEach(sector -> names.add(sector.name()));
    names.add(SectorGrid.TOTAL);
    return names;
  }
}

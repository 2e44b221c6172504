package org.isopach.analysis.change;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.map.MapLattice;

/** In which sector the middle of each cell of a lattice lies. Keeps what it has worked out. */
final class SectorCells {
  static final int OUTSIDE = -1;

  private record Key(MapLattice lattice, SectorGrid grid, Laterality laterality) {}

  private final Map<Key, int[]> kept = new ConcurrentHashMap<>();

  /**
   * Returns the place of each cell's sector in the grid's list, {@value #OUTSIDE} outside of all;
   * index {@code row * columns + column}. Not to be written to.
   */
  int[] of(MapLattice lattice, SectorGrid grid, Laterality laterality) {
    return kept.computeIfAbsent(new Key(lattice, grid, laterality), SectorCells::find);
  }

  private static int[] find(Key key) {
    MapLattice lattice = key.lattice();
    List<Sector> sectors = key.grid().sectors();
    int[] found = new int[lattice.cells()];
    for (int i = 0; i < found.length; i++) {
      double nasal = key.laterality().nasalSign() * lattice.xMm(i % lattice.columns());
      double superior = -lattice.yMm(i / lattice.columns());
      found[i] = OUTSIDE;
      for (int s = 0; s < sectors.size() && found[i] == OUTSIDE; s++) {
        found[i] = sectors.get(s).contains(nasal, superior) ? s : OUTSIDE;
      }
    }
    return found;
  }
}

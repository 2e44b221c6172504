package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.nerve.NerveTrend;
import org.isopach.analysis.nerve.ProfileChange;
import org.isopach.analysis.nerve.ProfileTrend;
import org.isopach.analysis.nerve.ProfileTurn;
import org.isopach.analysis.scan.BirthDate;
import org.isopach.report.table.ProfileChangeFile;
import org.isopach.report.table.ProfileTrendFile;

/** Writes how the nerve fibre profile changed angle by angle. */
final class NervePoints {
  private final NerveNoise noise;
  private final RunFolder folder;
  private final RunLedger ledger;

  NervePoints(NerveNoise noise, RunFolder folder, RunLedger ledger) {
    this.noise = noise;
    this.folder = folder;
    this.ledger = ledger;
  }

  /** Writes the change of each visit's profile since the baseline. */
  void compare(NerveGroup group, BaselineChoice choice) throws IOException {
    Optional<NerveBook.Entry> baseline = NerveComparer.baseline(group, choice);
    if (baseline.isEmpty() || group.role() == NerveRole.MACULA_VOLUME) {
      return;
    }
    double[] earlier = NerveGroup.profile(baseline.get());
    for (NerveBook.Entry visit : group.visits()) {
      if (!visit.equals(baseline.get())) {
        double[] own = NerveGroup.profile(visit);
        double turn = ProfileTurn.degrees(earlier, own);
        double[] later = ProfileTurn.turned(own, turn);
        Optional<ProfileChange> change =
            noise.ofProfile(group).map(known -> ProfileChange.of(earlier, later, known));
        Path file = folder.profileChange(visit.sopUid());
        ledger.add(
            new WrittenFile(file, ProfileChangeFile.write(file, earlier, later, turn, change)));
      }
    }
  }

  /** Writes the slopes of a group's profiles, from three visits on; named after the last visit. */
  void follow(NerveGroup group) throws IOException {
    List<NerveBook.Entry> visits = group.visits();
    if (group.role() == NerveRole.MACULA_VOLUME || visits.size() < NerveTrend.LEAST_VISITS) {
      return;
    }
    double[] years = new double[visits.size()];
    double[][] profiles = new double[years.length][];
    for (int v = 0; v < years.length; v++) {
      NerveBook.Entry visit = visits.get(v);
      years[v] = NerveGroup.days(visits.get(0), visit) / BirthDate.DAYS_PER_YEAR;
      double[] own = NerveGroup.profile(visit);
      profiles[v] = v == 0 ? own : ProfileTurn.onto(profiles[0], own);
    }
    double[] expected = new double[profiles[0].length];
    Arrays.fill(expected, Double.NaN);
    Path file = folder.profileTrend(visits.get(visits.size() - 1).sopUid());
    ledger.add(
        new WrittenFile(
            file, ProfileTrendFile.write(file, ProfileTrend.of(years, profiles, expected))));
  }
}

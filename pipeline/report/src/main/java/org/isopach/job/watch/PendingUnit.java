package org.isopach.job.watch;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.isopach.analysis.scan.Sha256;

/** A unit for which something new has come, with all its files that are there. */
final class PendingUnit {
  private final UnitKey key;
  private final SortedMap<Path, WatchedFile> files = new TreeMap<>();
  private Instant lastNews = Instant.MIN;
  private boolean scan;

  private PendingUnit(UnitKey key) {
    this.key = key;
  }

  /** Returns the units with new content, by patient and study. */
  static SortedMap<UnitKey, PendingUnit> among(Map<Path, WatchedFile> present, WatchState state) {
    SortedMap<UnitKey, PendingUnit> pending = new TreeMap<>();
    for (WatchedFile file : present.values()) {
      FileVerdict.Member member = file.member();
      if (member != null && state.isNew(member)) {
        pending.computeIfAbsent(member.unit(), PendingUnit::new).news(file);
      }
    }
    present.forEach(
        (path, file) -> {
          FileVerdict.Member member = file.member();
          if (member != null && pending.containsKey(member.unit())) {
            pending.get(member.unit()).add(path, file, member);
          }
        });
    return pending;
  }

  private void news(WatchedFile file) {
    lastNews = file.examined().isAfter(lastNews) ? file.examined() : lastNews;
  }

  private void add(Path path, WatchedFile file, FileVerdict.Member member) {
    files.put(path, file);
    scan |= member.scan();
  }

  UnitKey key() {
    return key;
  }

  /** Returns whether there is anything to be measured in it. */
  boolean scan() {
    return scan;
  }

  /** Returns when its last new file was examined. */
  Instant lastNews() {
    return lastNews;
  }

  /** Returns its files; contents may be there more than once. */
  SortedMap<Path, WatchedFile> files() {
    return files;
  }

  /** Returns the folders its files lie in. */
  Stream<Path> folders() {
    return files.keySet().stream().map(Path::getParent).distinct();
  }

  /** Returns one file of each content, the first by name. */
  List<Path> inputs() {
    Set<String> seen = new HashSet<>();
    List<Path> inputs = new ArrayList<>();
    files.forEach(
        (path, file) -> {
          if (seen.add(file.member().sha256())) {
            inputs.add(path);
          }
        });
    return inputs;
  }

  /** Returns the digests of its contents, sorted, each once. */
  List<String> sha256s() {
    return files.values().stream().map(f -> f.member().sha256()).distinct().sorted().toList();
  }

  /** Returns one digest for all its contents. */
  String contents() {
    return Sha256.of(String.join("\n", sha256s()).getBytes(StandardCharsets.US_ASCII));
  }
}

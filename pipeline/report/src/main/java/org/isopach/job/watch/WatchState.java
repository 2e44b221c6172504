package org.isopach.job.watch;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** All that a watcher knows: the sum of the journal's events. */
final class WatchState {
  private final Map<Path, WatchedFile> files = new LinkedHashMap<>();
  private final Map<UnitKey, UnitRecord> units = new TreeMap<>();
  private final Map<UnitKey, UnitKey> keys = new HashMap<>();
  private final Set<String> names = new HashSet<>();
  private Optional<String> options = Optional.empty();
  private Optional<WatchEvent.Ended> lastEnd = Optional.empty();

  /** Takes an event into account. */
  void apply(WatchEvent event) {
    if (event instanceof WatchEvent.Opened e) {
      options = Optional.of(e.options());
    } else if (event instanceof WatchEvent.Examined e) {
      files
          .computeIfAbsent(e.file(), path -> new WatchedFile())
          .remember(e.size(), e.modified(), shared(e.verdict()));
    } else if (event instanceof WatchEvent.Gone e) {
      files.remove(e.file());
    } else if (event instanceof WatchEvent.Began e) {
      names.add(e.name().toLowerCase(Locale.ROOT));
      unit(e.unit()).began(e);
    } else if (event instanceof WatchEvent.Stopped e) {
      unit(e.unit()).stopped();
    } else if (event instanceof WatchEvent.Failed e) {
      unit(e.unit()).failed(e);
    } else if (event instanceof WatchEvent.Ended e) {
      unit(e.unit()).ended(e);
      lastEnd = Optional.of(e);
    } else if (event instanceof WatchEvent.Again e) {
      unit(e.unit()).again();
    }
  }

  /** Many files share few units: each key is kept once. */
  private FileVerdict shared(FileVerdict verdict) {
    return verdict instanceof FileVerdict.Member m
        ? new FileVerdict.Member(m.sha256(), shared(m.unit()), m.scan())
        : verdict;
  }

  private UnitKey shared(UnitKey key) {
    return keys.computeIfAbsent(key, same -> same);
  }

  /** Returns the record of a unit, made when it is new. */
  UnitRecord unit(UnitKey key) {
    return units.computeIfAbsent(shared(key), unit -> new UnitRecord());
  }

  /** Returns whether a file's content still waits to be worked on. */
  boolean isNew(FileVerdict.Member member) {
    UnitRecord record = units.get(member.unit());
    return record == null || !record.dealtWith(member.sha256());
  }

  /** Returns the folder of a unit: the one it has, or one that no other unit has. */
  String nameOf(UnitKey key) {
    String own = unit(key).name();
    if (!own.isEmpty()) {
      return own;
    }
    String wished = key.wishedName();
    String name = wished;
    for (int i = 2; names.contains(name.toLowerCase(Locale.ROOT)); i++) {
      name = wished + "_" + i;
    }
    return name;
  }

  /** Returns the files, also those that have not settled; may be changed by the one who looks. */
  Map<Path, WatchedFile> files() {
    return files;
  }

  /** Returns the units by patient and study. */
  Map<UnitKey, UnitRecord> units() {
    return units;
  }

  /** Returns the options the results are made with, empty before the first watcher. */
  Optional<String> options() {
    return options;
  }

  /** Returns the last end of any work. */
  Optional<WatchEvent.Ended> lastEnd() {
    return lastEnd;
  }
}

package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.dicom.read.FileWalk;

/**
 * The files of the watched folders: which there are, which have settled, what each is. Files are
 * told by name, size and time of the last change, and read only when one of these is new.
 */
final class FileBook {
  /** A file that stays unfinished or unreadable is named when it was found so this often. */
  private static final int NAMED_AT = 3;

  private final WatchSettings settings;
  private final WatchLog log;
  private final FileExaminer examiner;
  private final Set<String> said = new HashSet<>();
  private int look;
  private boolean trouble;

  FileBook(WatchSettings settings, WatchLog log) {
    this.settings = settings;
    this.log = log;
    this.examiner = new FileExaminer(settings.byPatient(), settings.results());
    for (WatchedFile file : log.state().files().values()) {
      if (file.verdict().orElse(null) instanceof FileVerdict.LeftOut out) {
        said.add(out.sha256());
      }
    }
  }

  /** Looks which files there are. */
  void look(Instant now) throws IOException {
    look++;
    Set<Path> filled = new HashSet<>();
    FileWalk walk =
        FileWalk.over(
            settings.folders(),
            TemporaryNames::temporary,
            (path, attributes) -> {
              log.state()
                  .files()
                  .computeIfAbsent(path, name -> new WatchedFile())
                  .see(attributes.size(), modified(attributes), now, look);
              settings.folders().stream().filter(path::startsWith).forEach(filled::add);
            });
    for (Finding finding : walk.findings()) {
      if (said.add(finding.sentence())) {
        log.talk().say(finding.sentence());
      }
    }
    if (walk.findings().stream().noneMatch(f -> f.kind() == FindingKind.UNREADABLE_FILE)) {
      forgetGone(filled);
    }
    log.force();
  }

  /** A share that is not mounted looks empty: what was in it is not forgotten. */
  private void forgetGone(Set<Path> filled) throws IOException {
    List<Path> gone = new ArrayList<>();
    log.state()
        .files()
        .forEach(
            (path, file) -> {
              if (!file.seenAt(look) && filled.stream().anyMatch(path::startsWith)) {
                gone.add(path);
              }
            });
    for (Path path : gone) {
      log.record(new WatchEvent.Gone(path));
    }
  }

  /**
   * Examines files that have settled, until some time has passed.
   *
   * @return whether there were any
   */
  boolean examine(WatchTime time, Duration slice, BooleanSupplier stopped) throws IOException {
    Instant end = time.now().plus(slice);
    List<Path> ripe = ripe(time.now());
    for (Path path : ripe) {
      examine(path, time.now(), stopped);
      if (stopped.getAsBoolean() || time.now().isAfter(end)) {
        break;
      }
    }
    return !ripe.isEmpty();
  }

  private List<Path> ripe(Instant now) {
    List<Path> ripe = new ArrayList<>();
    log.state()
        .files()
        .forEach(
            (path, file) -> {
              if (file.seenAt(look) && file.ripe(now, settings.quiet())) {
                ripe.add(path);
              }
            });
    return ripe;
  }

  private void examine(Path path, Instant now, BooleanSupplier stopped) throws IOException {
    WatchedFile file = log.state().files().get(path);
    FileVerdict verdict = examiner.examine(path);
    if (stopped.getAsBoolean() || !unchanged(path, file, now)) {
      return;
    }
    if (file.verdict().filter(verdict::equals).isEmpty()) {
      log.record(new WatchEvent.Examined(path, file.size(), file.modified(), verdict));
    }
    file.judged(now);
    tell(path, file, verdict);
  }

  private void tell(Path path, WatchedFile file, FileVerdict verdict) {
    if (verdict instanceof FileVerdict.LeftOut out) {
      String sentence = new Finding(out.kind(), path.toString(), out.detail()).sentence();
      if (!said.add(out.sha256())) {
        return;
      }
      if (out.kind().gravity() == Gravity.SKIPPED) {
        log.talk().detail("left out: " + sentence);
      } else {
        trouble = true;
        log.talk().say("left out: " + sentence);
      }
    } else if (verdict instanceof FileVerdict.Waiting waiting && file.tries() == NAMED_AT) {
      log.talk()
          .say(
              "still waiting for "
                  + new Finding(waiting.kind(), path.toString(), waiting.detail()).sentence());
    }
  }

  /** Returns whether a file is as it was when it was looked at; if not, it must settle again. */
  boolean unchanged(Path path, WatchedFile file, Instant now) {
    try {
      BasicFileAttributes attributes = Files.readAttributes(path, BasicFileAttributes.class);
      if (file.same(attributes.size(), modified(attributes))) {
        return true;
      }
      file.change(attributes.size(), modified(attributes), now);
      return false;
    } catch (IOException e) {
      file.change(file.size(), file.modified(), now);
      return false;
    }
  }

  /** Returns the folders of files that have settled and were not examined yet. */
  Set<Path> unexamined(Instant now) {
    return ripe(now).stream()
        .filter(path -> log.state().files().get(path).verdict().isEmpty())
        .map(Path::getParent)
        .collect(Collectors.toSet());
  }

  /** Returns whether a file that was there from the first look on is still to settle. */
  boolean settling() {
    return log.state().files().values().stream()
        .anyMatch(file -> file.seenAt(look) && file.settling());
  }

  /** Returns the files seen in the last look. */
  Map<Path, WatchedFile> present() {
    Map<Path, WatchedFile> present = new LinkedHashMap<>();
    log.state()
        .files()
        .forEach(
            (path, file) -> {
              if (file.seenAt(look)) {
                present.put(path, file);
              }
            });
    return present;
  }

  /** Returns whether something was left out, or is waited for, that should have been measured. */
  boolean trouble() {
    return trouble
        || present().values().stream()
            .anyMatch(file -> file.verdict().orElse(null) instanceof FileVerdict.Waiting);
  }

  private static long modified(BasicFileAttributes attributes) {
    return attributes.lastModifiedTime().to(TimeUnit.NANOSECONDS);
  }
}

package org.isopach.job.watch;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32C;
import org.isopach.analysis.finding.FindingKind;

/**
 * Events as lines: a checksum (CRC-32C of the rest, eight hexadecimal digits), the kind of event,
 * its fields, with tabs between. Files are URIs, so that any name the file system has comes back.
 */
final class EventLine {
  private static final String TAB = "\t";

  private EventLine() {}

  static String of(WatchEvent event) {
    String body =
        String.join(TAB, fields(event).stream().map(EventLine::escaped).toArray(String[]::new));
    return checksum(body) + TAB + body;
  }

  /** Returns the event of a line, or empty when the line is not whole. */
  static Optional<WatchEvent> read(String line) {
    int tab = line.indexOf(TAB);
    if (tab < 0 || !line.substring(0, tab).equals(checksum(line.substring(tab + 1)))) {
      return Optional.empty();
    }
    List<String> fields =
        Arrays.stream(line.substring(tab + 1).split(TAB, -1)).map(EventLine::plain).toList();
    try {
      return Optional.of(event(fields));
    } catch (IllegalArgumentException | IndexOutOfBoundsException e) {
      return Optional.empty();
    }
  }

  private static List<String> fields(WatchEvent event) {
    if (event instanceof WatchEvent.Opened e) {
      return List.of("opened", e.options());
    } else if (event instanceof WatchEvent.Examined e) {
      return examined(e);
    } else if (event instanceof WatchEvent.Gone e) {
      return List.of("gone", uri(e.file()));
    } else if (event instanceof WatchEvent.Began e) {
      return unit("began", e.unit(), e.name(), "" + e.run(), e.contents());
    } else if (event instanceof WatchEvent.Stopped e) {
      return unit("stopped", e.unit());
    } else if (event instanceof WatchEvent.Failed e) {
      return unit(
          "failed",
          e.unit(),
          e.contents(),
          "" + e.at().getEpochSecond(),
          "" + e.due().getEpochSecond(),
          e.reason());
    } else if (event instanceof WatchEvent.Ended e) {
      return unit(
          "ended",
          e.unit(),
          e.name(),
          "" + e.run(),
          e.ends(),
          String.join(",", e.sha256s()),
          e.parked());
    } else if (event instanceof WatchEvent.Again e) {
      return unit("again", e.unit());
    }
    throw new IllegalArgumentException("unknown event " + event);
  }

  private static List<String> examined(WatchEvent.Examined e) {
    List<String> fields =
        new ArrayList<>(List.of("file", uri(e.file()), "" + e.size(), "" + e.modified()));
    if (e.verdict() instanceof FileVerdict.Member m) {
      fields.addAll(unit("member", m.unit(), m.sha256(), "" + m.scan()));
    } else if (e.verdict() instanceof FileVerdict.LeftOut out) {
      fields.addAll(List.of("left-out", out.sha256(), out.kind().name(), out.detail()));
    } else if (e.verdict() instanceof FileVerdict.Waiting w) {
      fields.addAll(List.of("waiting", w.kind().name(), w.detail()));
    }
    return fields;
  }

  private static List<String> unit(String kind, UnitKey unit, String... further) {
    List<String> fields = new ArrayList<>(List.of(kind, unit.patientId(), unit.studyUid()));
    fields.addAll(Arrays.asList(further));
    return fields;
  }

  private static WatchEvent event(List<String> f) {
    return switch (f.get(0)) {
      case "opened" -> new WatchEvent.Opened(f.get(1));
      case "file" ->
          new WatchEvent.Examined(
              path(f.get(1)),
              Long.parseLong(f.get(2)),
              Long.parseLong(f.get(3)),
              verdict(f.subList(4, f.size())));
      case "gone" -> new WatchEvent.Gone(path(f.get(1)));
      case "began" -> new WatchEvent.Began(key(f), f.get(3), Integer.parseInt(f.get(4)), f.get(5));
      case "stopped" -> new WatchEvent.Stopped(key(f));
      case "failed" ->
          new WatchEvent.Failed(key(f), f.get(3), time(f.get(4)), time(f.get(5)), f.get(6));
      case "ended" ->
          new WatchEvent.Ended(
              key(f),
              f.get(3),
              Integer.parseInt(f.get(4)),
              f.get(5),
              Arrays.asList(f.get(6).split(",", -1)),
              f.get(7));
      case "again" -> new WatchEvent.Again(key(f));
      default -> throw new IllegalArgumentException("unknown event " + f.get(0));
    };
  }

  private static FileVerdict verdict(List<String> f) {
    return switch (f.get(0)) {
      case "member" -> new FileVerdict.Member(f.get(3), key(f), Boolean.parseBoolean(f.get(4)));
      case "left-out" -> new FileVerdict.LeftOut(f.get(1), FindingKind.valueOf(f.get(2)), f.get(3));
      case "waiting" -> new FileVerdict.Waiting(FindingKind.valueOf(f.get(1)), f.get(2));
      default -> throw new IllegalArgumentException("unknown verdict " + f.get(0));
    };
  }

  private static UnitKey key(List<String> f) {
    return new UnitKey(f.get(1), f.get(2));
  }

  private static Instant time(String seconds) {
    return Instant.ofEpochSecond(Long.parseLong(seconds));
  }

  private static String uri(Path file) {
    return file.toUri().toString();
  }

  private static Path path(String uri) {
    return Path.of(URI.create(uri));
  }

  private static String checksum(String body) {
    CRC32C crc = new CRC32C();
    crc.update(body.getBytes(StandardCharsets.UTF_8));
    return HexFormat.of().toHexDigits((int) crc.getValue());
  }

  private static String escaped(String text) {
    return text.replace("\\", "\\\\").replace(TAB, "\\t").replace("\n", "\\n").replace("\r", "\\r");
  }

  private static String plain(String text) {
    if (text.indexOf('\\') < 0) {
      return text;
    }
    StringBuilder plain = new StringBuilder();
    boolean escape = false;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (!escape && c == '\\') {
        escape = true;
      } else {
        plain.append(escape ? meant(c) : c);
        escape = false;
      }
    }
    return plain.toString();
  }

  private static char meant(char c) {
    return switch (c) {
      case 't' -> '\t';
      case 'n' -> '\n';
      case 'r' -> '\r';
      default -> c;
    };
  }
}

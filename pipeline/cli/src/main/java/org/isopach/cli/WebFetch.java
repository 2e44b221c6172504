package org.isopach.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import org.isopach.dicom.network.FoundStudy;
import org.isopach.dicom.network.StudyQuery;
import org.isopach.dicom.web.WebArchive;
import org.isopach.dicom.web.WebException;
import org.isopach.dicom.web.WebSettings;

/** Fetches studies from a DICOMweb server and says what came of them. */
final class WebFetch {
  private final PrintWriter writer;
  private final Path out;

  /**
   * Prepares a fetch.
   *
   * @param writer is told what was found and fetched
   * @param out where objects go; null to list studies only
   */
  WebFetch(PrintWriter writer, Path out) {
    this.writer = writer;
    this.out = out;
  }

  /** Returns the exit code. */
  int run(WebSettings settings, StudyQuery query, NetworkLog log) throws IOException {
    WebArchive archive = new WebArchive(settings, log);
    List<FoundStudy> found;
    try {
      found = archive.find(query);
    } catch (IOException e) {
      log.say(settings.service() + ": " + e.getMessage());
      return FetchCommand.NOTHING;
    }
    FetchCommand.print(writer, found);
    if (found.isEmpty() || out == null) {
      return found.isEmpty() ? FetchCommand.NOTHING : 0;
    }
    boolean whole = true;
    for (FoundStudy one : found) {
      try {
        whole &= said(one, archive.get(one, out), log);
      } catch (WebException e) {
        whole = false;
        log.say(one.studyUid() + ": " + e.getMessage());
      }
    }
    return whole ? 0 : FetchCommand.SOME;
  }

  private boolean said(FoundStudy study, WebArchive.Fetched result, NetworkLog log) {
    writer.printf(
        "%s: %d objects fetched, %d not%n",
        study.studyUid(), result.fetched(), result.missing().size());
    writer.flush();
    result.missing().forEach(uid -> log.say("not fetched: " + uid));
    return result.whole();
  }
}

package org.isopach.dicom.web;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.isopach.dicom.network.FoundStudy;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.NetworkEvents;
import org.isopach.dicom.network.ReceivedFolder;
import org.isopach.dicom.network.StudyQuery;

/** Asks a DICOMweb server for studies and fetches them. */
public final class WebArchive {
  private final WebSettings settings;
  private final NetworkEvents events;
  private final WebExchange exchange;
  private final WebQuery query;
  private final long mostBytes;

  /** Makes a client that takes objects as long as a listener does. */
  public WebArchive(WebSettings settings, NetworkEvents events) {
    this(settings, events, ListenerSettings.OBJECT_BYTES);
  }

  WebArchive(WebSettings settings, NetworkEvents events, long mostBytes) {
    this.settings = settings;
    this.events = events;
    this.mostBytes = mostBytes;
    this.exchange = new WebExchange(settings);
    this.query = new WebQuery(settings, exchange, events);
  }

  /**
   * What came of one study.
   *
   * @param fetched objects that are kept now
   * @param missing SOP Instance UIDs of those the server lists and that are not
   */
  public record Fetched(int fetched, List<String> missing) {
    /** Copies the list. */
    public Fetched {
      missing = List.copyOf(missing);
    }

    /** Returns whether everything the server lists is kept. */
    public boolean whole() {
      return missing.isEmpty() && fetched > 0;
    }
  }

  /**
   * Asks which studies there are (QIDO-RS).
   *
   * @throws IOException when the server cannot be reached, refuses, or answers nonsense
   */
  public List<FoundStudy> find(StudyQuery asked) throws IOException {
    return query.studies(asked);
  }

  /**
   * Returns how many objects of a study the server lists, by their SOP Instance UIDs.
   *
   * @throws IOException as in {@link #find}
   */
  public Set<String> instances(String studyUid) throws IOException {
    return query.instances(studyUid).stream()
        .map(WebQuery.Instance::instanceUid)
        .collect(Collectors.toCollection(LinkedHashSet::new));
  }

  /**
   * Fetches a study (WADO-RS).
   *
   * @param folder where objects go, as a listener keeps them
   * @throws WebException when this study cannot be fetched, also because the disk is full; what was
   *     kept before stays
   * @throws IOException when the folder cannot be used
   */
  public Fetched get(FoundStudy study, Path folder) throws IOException {
    List<WebQuery.Instance> listed = listed(study.studyUid());
    try (ReceivedFolder objects = ReceivedFolder.open(folder, study.studyUid())) {
      WebRetrieval retrieval =
          new WebRetrieval(settings, exchange, objects, events, study.studyUid(), mostBytes);
      retrieval.run(listed);
      List<String> missing =
          listed.stream()
              .map(WebQuery.Instance::instanceUid)
              .filter(uid -> !retrieval.kept().contains(uid))
              .toList();
      return new Fetched(retrieval.kept().size(), missing);
    }
  }

  private List<WebQuery.Instance> listed(String studyUid) throws WebException {
    try {
      return query.instances(studyUid);
    } catch (WebException e) {
      throw e;
    } catch (IOException e) {
      throw WebException.lasting(e.getMessage(), e);
    }
  }
}

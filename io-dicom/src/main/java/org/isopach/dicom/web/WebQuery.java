package org.isopach.dicom.web;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.isopach.dicom.network.FoundStudy;
import org.isopach.dicom.network.NetworkEvents;
import org.isopach.dicom.network.Printable;
import org.isopach.dicom.network.StudyQuery;
import org.isopach.dicom.network.Uids;
import org.isopach.dicom.web.DicomJson.Item;

/** Asks page by page which studies there are and what is in them (QIDO-RS, PS3.18, 10.6). */
final class WebQuery {
  private static final String JSON = "application/dicom+json";
  private static final String STUDY_DATE = "00080020";
  private static final String MODALITIES = "00080061";
  private static final String PATIENT_ID = "00100020";
  private static final String STUDY_UID = "0020000D";
  private static final String SERIES_UID = "0020000E";
  private static final String INSTANCE_UID = "00080018";
  private static final String INSTANCES = "00201208";
  private static final Set<String> WANTED =
      Set.of(STUDY_DATE, MODALITIES, PATIENT_ID, STUDY_UID, SERIES_UID, INSTANCE_UID, INSTANCES);
  private static final int PAGE = 500;
  private static final int MOST_STUDIES = 10_000;
  private static final int MOST_INSTANCES = 100_000;
  private static final long LONGEST_PAGE = 16L << 20;

  private final WebSettings settings;
  private final WebExchange exchange;
  private final NetworkEvents events;

  WebQuery(WebSettings settings, WebExchange exchange, NetworkEvents events) {
    this.settings = settings;
    this.exchange = exchange;
    this.events = events;
  }

  /**
   * An object the server has.
   *
   * @param seriesUid sound, as is the other
   */
  record Instance(String seriesUid, String instanceUid) {}

  /** Returns the studies that fit; what does not fit the query is left out and told. */
  List<FoundStudy> studies(StudyQuery query) throws IOException {
    Map<String, String> keys = new TreeMap<>();
    keys.put("PatientID", query.patientId());
    keys.put("StudyInstanceUID", query.studyUid());
    keys.put("StudyDate", query.dates());
    return pages("/studies", keys, STUDY_UID, MOST_STUDIES).stream()
        .filter(item -> asked(item, query))
        .map(
            item ->
                new FoundStudy(
                    item.text(STUDY_UID),
                    Printable.of(item.text(STUDY_DATE)),
                    Printable.of(item.text(MODALITIES)),
                    Printable.of(item.text(INSTANCES))))
        .toList();
  }

  /** A server may pass over a key it does not know, and answer with everybody's studies. */
  private boolean asked(Item item, StudyQuery query) {
    String patient = item.text(PATIENT_ID).strip();
    boolean fits = query.fits(patient, item.text(STUDY_UID), item.text(STUDY_DATE).strip());
    if (!fits) {
      refuse("study " + item.text(STUDY_UID) + " was not asked for and is left out");
    }
    return fits;
  }

  /** Returns the objects of a study. */
  List<Instance> instances(String studyUid) throws IOException {
    return pages("/studies/" + studyUid + "/instances", Map.of(), INSTANCE_UID, MOST_INSTANCES)
        .stream()
        .filter(item -> sound(item, SERIES_UID))
        .map(item -> new Instance(item.text(SERIES_UID), item.text(INSTANCE_UID)))
        .toList();
  }

  /** Asks once, for one answer. */
  void probe() throws IOException {
    page("/studies", Map.of("limit", "1"));
  }

  private List<Item> pages(String path, Map<String, String> keys, String uid, int most)
      throws IOException {
    Map<String, Item> all = new LinkedHashMap<>();
    int asked = 0;
    while (true) {
      Map<String, String> paged = new TreeMap<>(keys);
      paged.put("limit", String.valueOf(PAGE));
      paged.put("offset", String.valueOf(asked));
      Page page = exchange.patiently(() -> page(path, paged));
      int before = all.size();
      page.items().stream()
          .filter(item -> sound(item, uid))
          .forEach(item -> all.putIfAbsent(item.text(uid), item));
      if (all.size() > most) {
        throw WebException.last("more than " + most + " answers; ask for fewer");
      }
      asked += page.items().size();
      if (all.size() == before || (page.items().size() < PAGE && !page.more())) {
        return new ArrayList<>(all.values());
      }
    }
  }

  private boolean sound(Item item, String uid) {
    boolean sound = Uids.sound(item.text(uid));
    if (!sound) {
      refuse("an answer without a sound UID was left out");
    }
    return sound;
  }

  private record Page(List<Item> items, boolean more) {}

  private Page page(String path, Map<String, String> keys) throws IOException {
    try (WebAnswer answer = exchange.get(settings.service().resource(path, keys), JSON)) {
      if (answer.status() == WebAnswer.NO_CONTENT) {
        return new Page(List.of(), false);
      }
      String type = answer.mediaType().name();
      if (!type.equals(JSON) && !type.equals("application/json")) {
        throw WebException.lasting("the answer to a query is not DICOM JSON but " + type);
      }
      BoundedStream body = new BoundedStream(answer.body(), LONGEST_PAGE, "an answer to a query");
      boolean more = answer.header("warning").startsWith("299");
      return new Page(DicomJson.read(body, WANTED, 2 * MOST_STUDIES), more);
    }
  }

  private void refuse(String line) {
    events.event(NetworkEvents.Kind.REFUSED, settings.service() + ": " + line);
  }
}

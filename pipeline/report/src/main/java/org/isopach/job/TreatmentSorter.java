package org.isopach.job;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.series.TreatmentEvent;

/** Gives every row of a treatments file to the eyes it is about, or says why it is left out. */
final class TreatmentSorter {
  private static final String BOTH = "both";

  private final Map<Eye, LocalDate> lastVisits;
  private final RunLedger ledger;
  private final Map<TreatmentEvent, Long> lines = new LinkedHashMap<>();

  /**
   * @param lastVisits the eyes that have dated visits, with the date of the last one
   */
  TreatmentSorter(Map<Eye, LocalDate> lastVisits, RunLedger ledger) {
    this.lastVisits = lastVisits;
    this.ledger = ledger;
  }

  /** Returns the treatments by eye, the earliest first, those of one day in the file's order. */
  Map<Eye, List<TreatmentEvent>> sort(TreatmentList list) {
    for (TreatmentList.Row row : list.rows()) {
      Optional<String> obstacle = take(row);
      obstacle.ifPresent(why -> leaveOut(list, row, why));
    }
    Map<Eye, List<TreatmentEvent>> sorted = new LinkedHashMap<>();
    lines.keySet().stream()
        .sorted(Comparator.comparing(TreatmentEvent::date))
        .forEach(event -> sorted.computeIfAbsent(event.eye(), eye -> new ArrayList<>()).add(event));
    return sorted;
  }

  private void leaveOut(TreatmentList list, TreatmentList.Row row, String why) {
    ledger.add(new Finding(FindingKind.TREATMENT_EXCLUDED, list.subject(row), "left out: " + why));
  }

  /** Takes a row, or returns why it, or one eye of it, is left out. */
  private Optional<String> take(TreatmentList.Row row) {
    if (row.cells().isEmpty()) {
      return Optional.of("it has not as many cells as the header");
    }
    Optional<LocalDate> date = date(row.date());
    if (date.isEmpty()) {
      return Optional.of("'" + row.date() + "' is no date such as 2026-02-28");
    }
    List<Laterality> sides = sides(row.eye());
    if (sides.isEmpty()) {
      return Optional.of("the eye must be R, L or both, was '" + row.eye() + "'");
    }
    if (row.what().isEmpty()) {
      return Optional.of("it does not say what was done");
    }
    List<String> obstacles = new ArrayList<>();
    for (Laterality side : sides) {
      take(row, side, date.get()).ifPresent(obstacles::add);
    }
    return obstacles.isEmpty() ? Optional.empty() : Optional.of(String.join("; ", obstacles));
  }

  private Optional<String> take(TreatmentList.Row row, Laterality side, LocalDate date) {
    List<Eye> patients =
        lastVisits.keySet().stream().filter(e -> e.patientId().equals(row.patientId())).toList();
    if (patients.isEmpty()) {
      return Optional.of("no dated scan is of patient '" + row.patientId() + "'");
    }
    if (patients.stream().map(Eye::issuer).distinct().count() > 1) {
      return Optional.of("several patients have the identifier '" + row.patientId() + "'");
    }
    Optional<Eye> eye = patients.stream().filter(e -> e.laterality() == side).findFirst();
    if (eye.isEmpty()) {
      return Optional.of("the patient has no dated scan of the " + side.word() + " eye");
    }
    if (date.isAfter(lastVisits.get(eye.get()))) {
      return Optional.of(
          date
              + " is after the last visit of the "
              + side.word()
              + " eye, "
              + lastVisits.get(eye.get()));
    }
    Long earlier = lines.putIfAbsent(new TreatmentEvent(eye.get(), date, row.what()), row.line());
    return earlier == null
        ? Optional.empty()
        : Optional.of("line " + earlier + " says the same of the " + side.word() + " eye");
  }

  private static Optional<LocalDate> date(String text) {
    try {
      return Optional.of(LocalDate.parse(text));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  private static List<Laterality> sides(String text) {
    if (text.toLowerCase(Locale.ROOT).equals(BOTH)) {
      return List.of(Laterality.RIGHT, Laterality.LEFT);
    }
    return Laterality.ofCode(text.toUpperCase(Locale.ROOT)).map(List::of).orElse(List.of());
  }
}

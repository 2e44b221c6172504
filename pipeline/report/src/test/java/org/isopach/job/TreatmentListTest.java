package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.series.TreatmentEvent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Treatments are taken for the right eye, or left out with a word: never dropped. */
class TreatmentListTest {
  private static final Eye RIGHT = new Eye("P1", "", Laterality.RIGHT);
  private static final Eye LEFT = new Eye("P1", "", Laterality.LEFT);
  private static final LocalDate LAST = LocalDate.of(2026, 6, 1);

  @TempDir Path folder;

  private final RunLedger ledger = new RunLedger(JobListener.SILENT);

  @Test
  void takesRowsForOneEyeAndForBothInTheOrderOfTheirDates() throws IOException {
    Map<Eye, List<TreatmentEvent>> sorted =
        sort(
            """
            \uFEFFEYE,note,date,patient_id,what
            both,x,2026-03-01,P1,"Dose 2, by hand"

            r,x,2026-02-01, P1 ,Dose 1
            """);

    assertEquals(
        List.of(
            new TreatmentEvent(RIGHT, LocalDate.of(2026, 2, 1), "Dose 1"),
            new TreatmentEvent(RIGHT, LocalDate.of(2026, 3, 1), "Dose 2, by hand")),
        sorted.get(RIGHT));
    assertEquals(1, sorted.get(LEFT).size());
    assertEquals(List.of(), ledger.findings());
  }

  @Test
  void namesEveryRowThatIsLeftOut() throws IOException {
    Map<Eye, List<TreatmentEvent>> sorted =
        sort(
            """
            patient_id,eye,date,what
            P1,R,2026-02-01,Dose
            P1,R,2026-02-01,Dose
            P1,OU,2026-02-01,Dose
            P1,,2026-02-01,Dose
            P9,R,2026-02-01,Dose
            P2,R,2026-02-01,Dose
            P3,both,2026-02-01,Dose
            P1,R,01.02.2026,Dose
            P1,R,2026-02-30,Dose
            P1,R,2026-06-02,Dose
            P1,R,2026-02-01,
            P1,R,2026-02-01
            """);

    assertEquals(1, sorted.get(RIGHT).size());
    assertEquals(List.of("2026-02-01"), dates(sorted, new Eye("P3", "", Laterality.LEFT)));
    assertEquals(
        List.of(
            "line 3: left out: line 2 says the same of the right eye",
            "line 4: left out: the eye must be R, L or both, was 'OU'",
            "line 5: left out: the eye must be R, L or both, was ''",
            "line 6: left out: no dated scan is of patient 'P9'",
            "line 7: left out: several patients have the identifier 'P2'",
            "line 8: left out: the patient has no dated scan of the right eye",
            "line 9: left out: '01.02.2026' is no date such as 2026-02-28",
            "line 10: left out: '2026-02-30' is no date such as 2026-02-28",
            "line 11: left out: 2026-06-02 is after the last visit of the right eye, 2026-06-01",
            "line 12: left out: it does not say what was done",
            "line 13: left out: it has not as many cells as the header"),
        ledger.findings().stream()
            .map(one -> one.subject().replaceAll(".*, line", "line") + ": " + one.detail())
            .toList());
    assertTrue(
        ledger.findings().stream().allMatch(f -> f.kind() == FindingKind.TREATMENT_EXCLUDED));
  }

  @Test
  void refusesWhatIsNoSuchTable() throws IOException {
    assertTrue(
        refusal("patient_id;eye;date;what\nP1;R;2026-02-01;Dose\n").contains("'patient_id'"));
    assertTrue(refusal("").contains("patient_id"));
    assertTrue(refusal("patient_id,eye,date,what\nP1,R,\"2026").contains("comma-separated"));
    assertTrue(refusal("patient_id,patient_id,eye,date,what\n").contains("comma-separated"));
    Path file = folder.resolve("latin");
    Files.write(
        file,
        "patient_id,eye,date,what\nP1,R,2026-02-01,\u00E9".getBytes(StandardCharsets.ISO_8859_1));
    assertEquals(
        "the text is not UTF-8",
        assertThrows(IOException.class, () -> TreatmentList.read(file)).getMessage());
    assertThrows(IOException.class, () -> TreatmentList.read(folder.resolve("none")));
  }

  private String refusal(String text) throws IOException {
    Path file = Files.writeString(folder.resolve("t.csv"), text);
    return assertThrows(IOException.class, () -> TreatmentList.read(file)).getMessage();
  }

  private static List<String> dates(Map<Eye, List<TreatmentEvent>> sorted, Eye eye) {
    return sorted.get(eye).stream().map(event -> event.date().toString()).toList();
  }

  private Map<Eye, List<TreatmentEvent>> sort(String text) throws IOException {
    Map<Eye, LocalDate> last = new LinkedHashMap<>();
    last.put(RIGHT, LAST);
    last.put(LEFT, LAST);
    last.put(new Eye("P2", "Tern", Laterality.RIGHT), LAST);
    last.put(new Eye("P2", "Gannet", Laterality.RIGHT), LAST);
    last.put(new Eye("P3", "", Laterality.LEFT), LAST);
    Path file = Files.writeString(folder.resolve("t.csv"), text);
    return new TreatmentSorter(last, ledger).sort(TreatmentList.read(file));
  }
}

package org.isopach.job;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import java.util.UUID;
import org.isopach.analysis.cross.SectorAgreement;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;

/**
 * The names of the files in a run folder.
 *
 * @param root the folder
 */
public record RunFolder(Path root) {
  /** Returns the table of all sectors. */
  public Path sectors() {
    return root.resolve("sectors.csv");
  }

  /** Returns the table of fluid and other regions. */
  public Path fluid() {
    return root.resolve("fluid.csv");
  }

  /** Returns the label image of a frame, counted from 0. */
  public Path regions(String sopUid, int frame) {
    return root.resolve("regions").resolve(safe(sopUid)).resolve(frame + ".png");
  }

  /** Returns the picture of a frame, counted from 0, with what was found in it. */
  public Path overlay(String sopUid, int frame) {
    return root.resolve("overlays").resolve(safe(sopUid)).resolve(frame + ".png");
  }

  /** Returns the table of the quality of all scans and frames. */
  public Path quality() {
    return root.resolve("quality.csv");
  }

  /** Returns the table of all changes. */
  public Path change() {
    return root.resolve("change.csv");
  }

  /** Returns the table of the regions whose change is beyond noise. */
  public Path changeRegions() {
    return root.resolve("change-regions.csv");
  }

  /** Returns all changes and regions for programs. */
  public Path changeJson() {
    return root.resolve("change.json");
  }

  /** Returns the table of repeatability; the ending is that of its format. */
  public Path repeatability(String ending) {
    return root.resolve("repeatability" + ending);
  }

  /** Returns the plot of a sector's repeats. */
  public Path repeatabilityPlot(Layer layer, String sector, String ending) {
    return root.resolve("repeatability").resolve(layer.name() + "_" + sector + ending);
  }

  /** Returns the table of all visits of all series. */
  public Path series() {
    return root.resolve("series.csv");
  }

  /** Returns the table of how series run. */
  public Path trend() {
    return root.resolve("trend.csv");
  }

  /** Returns all that is known of series, for programs. */
  public Path seriesJson() {
    return root.resolve("series.json");
  }

  /** Returns the table of changes after treatments. */
  public Path response() {
    return root.resolve("response.csv");
  }

  /** Returns the table of when eyes were found dry. */
  public Path dry() {
    return root.resolve("dry.csv");
  }

  /** Returns the chart of a series; named after its first scan. */
  public Path seriesPlot(String sopUid, Layer layer, String ending) {
    return root.resolve("series").resolve(safe(sopUid) + "_" + layer.name() + "." + ending);
  }

  /** Returns the table of how the two eyes of patients differ. */
  public Path asymmetry() {
    return root.resolve("asymmetry.csv");
  }

  /** Returns the picture of how two eyes differ; named after the right one's scan. */
  public Path asymmetryPicture(String sopUid, Layer layer) {
    return root.resolve("asymmetry").resolve(safe(sopUid) + "_" + layer.name() + ".png");
  }

  /** Returns the table of what others found, beside ours. */
  public Path crosscheck() {
    return root.resolve("crosscheck.csv");
  }

  /** Returns the table of how sectors agree over several scans. */
  public Path crosscheckAgreement() {
    return root.resolve("crosscheck-agreement.csv");
  }

  /** Returns the plot of a sector's agreement; numbered as in that table. */
  public Path crosscheckPlot(int number, SectorAgreement one, String ending) {
    String name = String.format(Locale.ROOT, "%03d_%s", number, one.kind());
    return root.resolve("crosscheck")
        .resolve(name + "_" + one.layer() + "_" + one.sector() + "." + ending);
  }

  /** Returns the table of everything measured of the nerve. */
  public Path nerve() {
    return root.resolve("nerve.csv");
  }

  /** Returns the table of how the nerve changed since the baseline. */
  public Path nerveChange() {
    return root.resolve("nerve-change.csv");
  }

  /** Returns the table of all visits of the nerve. */
  public Path nerveSeries() {
    return root.resolve("nerve-series.csv");
  }

  /** Returns the table of how the nerve's values run over the visits. */
  public Path nerveTrend() {
    return root.resolve("nerve-trend.csv");
  }

  /** Returns the nerve fibre profile of a scan: a table or a plot, by its ending. */
  public Path profile(String sopUid, String ending) {
    return root.resolve("profile").resolve(safe(sopUid) + "." + ending);
  }

  /** Returns how a scan's nerve fibre profile changed since the baseline, angle by angle. */
  public Path profileChange(String sopUid) {
    return root.resolve("profile-change").resolve(safe(sopUid) + ".csv");
  }

  /** Returns the slopes of the nerve fibre profile up to a scan, angle by angle. */
  public Path profileTrend(String sopUid) {
    return root.resolve("profile-trend").resolve(safe(sopUid) + ".csv");
  }

  /** Returns the FHIR transaction of an eye at a visit. */
  public Path fhir(String studyUid, Laterality eye) {
    return root.resolve("fhir").resolve(safe(studyUid) + "_" + eye.code() + ".json");
  }

  /** Returns the record of the run. */
  public Path run() {
    return root.resolve("run.json");
  }

  /** Returns the table of a scan's boundaries. */
  public Path boundaries(String sopUid) {
    return root.resolve("boundaries").resolve(safe(sopUid) + ".csv");
  }

  /** Returns the picture of a map. */
  public Path map(String sopUid, Layer layer) {
    return root.resolve("maps").resolve(safe(sopUid) + "_" + layer.name() + ".png");
  }

  /** Returns the picture of a change; named after the follow-up. */
  public Path changePicture(String sopUid, Layer layer) {
    return root.resolve("change").resolve(safe(sopUid) + "_" + layer.name() + ".png");
  }

  /** Returns the thickness map object of a map. */
  public Path object(String sopUid, Layer layer) {
    return root.resolve("objects").resolve(safe(sopUid) + "_" + layer.name() + ".dcm");
  }

  /** Returns another object of a scan, such as {@code grid-report}. */
  public Path object(String sopUid, String what) {
    return root.resolve("objects").resolve(safe(sopUid) + "_" + what + ".dcm");
  }

  /** Returns the report of a scan for people. */
  public Path report(String sopUid) {
    return root.resolve("reports").resolve(safe(sopUid) + ".pdf");
  }

  /** Returns the table of how visits were laid on one another. */
  public Path registrations() {
    return root.resolve("registration.csv");
  }

  /** Returns the table of where a follow-up's A-scans lie on its baseline. */
  public Path placed(String sopUid) {
    return root.resolve("registration").resolve(safe(sopUid) + ".csv");
  }

  /** Returns the registration object of a follow-up onto its baseline. */
  public Path registration(String sopUid) {
    return root.resolve("registration").resolve(safe(sopUid) + ".dcm");
  }

  /** Returns a file's name as the run record gives it, with forward slashes. */
  String name(Path file) {
    return root.relativize(file).toString().replace('\\', '/');
  }

  /**
   * Returns a UID as part of a file name. A UID has digits and dots only; whatever else an object
   * puts there must not lead out of the folder or onto another object's file.
   */
  public static String nameOfUid(String uid) {
    return uid.matches("[0-9][0-9.]{0,63}") ? uid : made(uid);
  }

  /** Returns an identifier, such as a patient's, as part of a file name, with the same care. */
  public static String nameOfId(String id) {
    return id.matches("[0-9A-Za-z]([0-9A-Za-z._-]{0,62}[0-9A-Za-z])?") ? id : made(id);
  }

  private static String safe(String uid) {
    return nameOfUid(uid);
  }

  private static String made(String text) {
    UUID name = UUID.nameUUIDFromBytes(text.getBytes(StandardCharsets.UTF_8));
    String plain = text.replaceAll("[^0-9A-Za-z]", "_");
    return plain.substring(0, Math.min(32, plain.length())) + "_" + name;
  }
}

package org.isopach.dicom.read;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.pixel.PixelFormat;

/**
 * Turns an Ophthalmic Thickness Map object into a map (DICOM PS3.3, section A.65).
 *
 * <p>The map's scan is named by the object's Source Image Sequence, or by the object itself when
 * that is missing; its document is the map's own file.
 */
final class MapReader {
  private static final String ABSOLUTE = "111930";

  /** DICOM PS3.16, CID 4262, as far as its terms are a layer of the whole retina. */
  private static final Map<String, Layer> LAYERS =
      Map.of("111927", Layer.ILM_EZ, "111928", Layer.ILM_RPE, "111929", Layer.ILM_BM);

  private final Map<String, Localizer> localizers;

  /** Makes a reader that places maps on these fundus images, by SOP instance UID. */
  MapReader(Map<String, Localizer> localizers) {
    this.localizers = Map.copyOf(localizers);
  }

  /**
   * Returns the map, or empty when the object does not say of which eye it is.
   *
   * @param sha256 the file's digest
   * @param remarks receives what is noteworthy
   * @throws ObjectDefect when it is not a map of a known layer's thickness; says why
   * @throws IOException when the file cannot be read
   */
  Optional<ThicknessMap> read(ParsedObject object, String sha256, Remarks remarks)
      throws ObjectDefect, IOException {
    Dataset attributes = object.attributes();
    Layer layer = layer(attributes);
    PixelFormat format = PixelFormat.of(attributes).notInverted();
    float[] micrometres = micrometres(object, format);
    MapGrid grid = MapGrid.of(attributes, format.rows(), format.columns());
    Landmark centre = grid.centre(attributes, localizers, remarks);
    FunctionalGroups none = FunctionalGroups.of(Dataset.builder().build());
    Optional<Laterality> eye = LateralityReader.read(attributes, none, 0, remarks);
    ScanIdentity identity = identity(attributes, remarks);
    return eye.map(
        laterality ->
            new ThicknessMap(
                layer,
                laterality,
                grid.lattice(attributes),
                centre,
                identity,
                new SourceDocument(object.location(), sha256),
                grid.toSquares(micrometres)));
  }

  /** Returns the thickness of every pixel in µm, NaN where there is none. */
  static float[] micrometres(ParsedObject object, PixelFormat format)
      throws ObjectDefect, IOException {
    float[] stored = pixels(object, format);
    ThicknessMapping mapping = ThicknessMapping.of(object.attributes(), format.signed());
    float[] micrometres = new float[stored.length];
    for (int i = 0; i < stored.length; i++) {
      micrometres[i] = (float) mapping.micrometres(stored[i]);
    }
    return micrometres;
  }

  /**
   * Checks that a map shows thickness and no deviation of it.
   *
   * @throws ObjectDefect DERIVED_OBJECT when it does not
   */
  static void requireAbsolute(Dataset attributes) throws ObjectDefect {
    String type = code(attributes, Tags.OPHTHALMIC_THICKNESS_MAP_TYPE_CODE_SEQUENCE);
    if (!type.equals(ABSOLUTE)) {
      throw new ObjectDefect(
          FindingKind.DERIVED_OBJECT,
          "the map is not of absolute thickness, its type is \"" + type + "\"");
    }
  }

  private static Layer layer(Dataset attributes) throws ObjectDefect {
    requireAbsolute(attributes);
    String definition = code(attributes, Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE);
    Layer layer = LAYERS.get(definition);
    if (layer == null) {
      throw new ObjectDefect(
          FindingKind.DERIVED_OBJECT,
          "the map is not of total retinal thickness, its definition is \"" + definition + "\"");
    }
    return layer;
  }

  private static String code(Dataset attributes, int sequence) {
    List<Dataset> items = attributes.items(sequence);
    return items.isEmpty() ? "" : items.get(0).text(Tags.CODE_VALUE).orElse("");
  }

  private static float[] pixels(ParsedObject object, PixelFormat format)
      throws ObjectDefect, IOException {
    float[] stored = new float[format.framePixels()];
    try {
      object.frames(format, 1).read(0, stored);
    } catch (FrameReadException e) {
      throw new ObjectDefect(FindingKind.UNSUPPORTED_ENCODING, e.getMessage(), e);
    }
    return stored;
  }

  private static ScanIdentity identity(Dataset attributes, Remarks remarks) {
    ScanIdentity own = TomographyReader.identity(attributes, remarks);
    String source =
        attributes.items(Tags.SOURCE_IMAGE_SEQUENCE).stream()
            .findFirst()
            .flatMap(item -> item.text(Tags.REFERENCED_SOP_INSTANCE_UID))
            .orElse(own.sopUid());
    return new ScanIdentity(
        own.patientId(),
        own.studyUid(),
        own.seriesUid(),
        source,
        own.acquired(),
        own.patientIdIssuer());
  }
}

package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.analysis.cross.FieldPlace;
import org.isopach.analysis.cross.FieldValues;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.pixel.PixelFormat;
import org.isopach.dicom.toolkit.PixelMedObjectReader;

/**
 * Reads Ophthalmic Thickness Maps of absolute thickness with their own pixels and every way they
 * say where these lie; {@link MapReader} makes maps on square cells of them.
 */
public final class ThicknessObjectReader {
  private ThicknessObjectReader() {}

  /**
   * Returns the map of an object.
   *
   * @throws ObjectDefect when the file is no map of absolute thickness in um, or not whole
   * @throws IOException when the file cannot be read
   */
  public static PlacedMap read(Path file) throws IOException, ObjectDefect {
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    Dataset attributes = object.attributes();
    if (attributes.text(Tags.SOP_CLASS_UID).filter(SopKind.THICKNESS_MAP.uid()::equals).isEmpty()) {
      throw new ObjectDefect(FindingKind.NOT_OPHTHALMIC, "this is no thickness map");
    }
    MapReader.requireAbsolute(attributes);
    PixelFormat format = PixelFormat.of(attributes).notInverted();
    float[] micrometres = MapReader.micrometres(object, format);
    List<PlacedMap.Anchor> anchors = anchors(attributes, format);
    Optional<Laterality> eye =
        LateralityReader.read(attributes, FunctionalGroups.of(attributes), 0, new Remarks(""));
    return new PlacedMap(
        MapQuantity.of(definition(attributes)),
        "",
        eye,
        sources(attributes),
        new FieldValues(format.rows(), format.columns(), micrometres),
        anchors,
        anchors.isEmpty() ? "it is not registered to a fundus image and states no fovea" : "");
  }

  /** Returns the code of what the thickness lies between, or empty. */
  static Optional<Code> definition(Dataset attributes) {
    return attributes.items(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE).stream()
        .findFirst()
        .flatMap(Code::of);
  }

  /** Returns the SOP Instance UIDs of the tomographies the map was made from. */
  static Set<String> sources(Dataset attributes) {
    Set<String> uids = new TreeSet<>();
    for (Dataset item : attributes.items(Tags.SOURCE_IMAGE_SEQUENCE)) {
      item.text(Tags.REFERENCED_SOP_INSTANCE_UID).ifPresent(uids::add);
    }
    return uids;
  }

  private static List<PlacedMap.Anchor> anchors(Dataset attributes, PixelFormat format)
      throws ObjectDefect {
    List<PlacedMap.Anchor> anchors = new ArrayList<>();
    onImage(attributes).ifPresent(anchors::add);
    MapGrid grid = MapGrid.of(attributes, format.rows(), format.columns());
    grid.fovea(attributes)
        .map(fovea -> new PlacedMap.FromFovea(place(grid, fovea)))
        .ifPresent(anchors::add);
    return anchors;
  }

  /** Returns where pixels lie from a point given from the outer corner of the first of them. */
  private static FieldPlace place(MapGrid grid, FundusPoint origin) {
    FundusPoint first = new FundusPoint(grid.columnMm() / 2, grid.rowMm() / 2);
    return new FieldPlace(
        first.minus(origin), new FundusPoint(grid.columnMm(), 0), new FundusPoint(0, grid.rowMm()));
  }

  /** A map registered to one image of those it refers to; which of several is not said. */
  private static Optional<PlacedMap.Anchor> onImage(Dataset attributes) {
    List<Dataset> items = attributes.items(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE);
    List<Dataset> images = attributes.items(Tags.REFERENCED_INSTANCE_SEQUENCE);
    if (items.size() != 1 || images.size() != 1) {
      return Optional.empty();
    }
    Optional<String> uid = images.get(0).text(Tags.REFERENCED_SOP_INSTANCE_UID);
    List<Double> first =
        MapGrid.corner(items.get(0), Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER);
    List<Double> last =
        MapGrid.corner(items.get(0), Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER);
    boolean inPixels =
        items.get(0).text(Tags.REGISTERED_LOCALIZER_UNITS).filter("PIXEL"::equals).isPresent();
    if (uid.isEmpty() || !inPixels || first.size() != 2 || last.size() != 2) {
      return Optional.empty();
    }
    return Optional.of(
        new PlacedMap.OnImage(uid.get(), first.get(0), first.get(1), last.get(0), last.get(1)));
  }
}

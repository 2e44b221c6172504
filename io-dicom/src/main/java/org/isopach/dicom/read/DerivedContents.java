package org.isopach.dicom.read;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.DerivedObject;

/** What an object says somebody found in a scan, read whole. */
public sealed interface DerivedContents {
  /** The eyes of a grid report. */
  record Reports(List<MacularGridReport> eyes) implements DerivedContents {
    public Reports {
      eyes = List.copyOf(eyes);
    }
  }

  /** The surfaces of a height map segmentation. */
  record Surfaces(List<HeightMap> surfaces) implements DerivedContents {
    public Surfaces {
      surfaces = List.copyOf(surfaces);
    }
  }

  /** The masks of a segmentation. */
  record Masks(List<SegmentMask> masks) implements DerivedContents {
    public Masks {
      masks = List.copyOf(masks);
    }
  }

  /** The maps of a thickness map or a parametric map. */
  record Maps(List<PlacedMap> maps) implements DerivedContents {
    public Maps {
      maps = List.copyOf(maps);
    }
  }

  /**
   * Reads the content of an object.
   *
   * @throws ObjectDefect when it is not whole or cannot be understood; says why
   * @throws IOException when the file cannot be read
   */
  static DerivedContents of(DerivedObject object) throws IOException, ObjectDefect {
    Path file = Path.of(object.location());
    return switch (object.kind()) {
      case GRID_REPORT -> new Reports(MacularGridReportReader.read(file));
      case HEIGHT_MAP -> new Surfaces(HeightMapReader.read(file));
      case SEGMENTATION -> new Masks(SegmentationReader.read(file));
      case PARAMETRIC_MAP -> new Maps(ParametricMapReader.read(file));
      case THICKNESS_MAP -> new Maps(List.of(ThicknessObjectReader.read(file)));
      case EN_FACE, DOCUMENT ->
          throw new ObjectDefect(
              FindingKind.NOT_COMPARED_WITH_SCAN, object.kind().words() + " has no numbers");
    };
  }
}

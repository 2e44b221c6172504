package org.isopach.cli;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_USE_JAVA_UTIL_LOGGING;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.nio.channels.FileChannel;
import java.security.MessageDigest;
import java.util.List;
import org.isopach.analysis.scan.Sha256;
import org.isopach.dicom.derive.DerivedUids;
import org.isopach.dicom.file.HeldFile;

/** The arrows between the rooms, as docs/architecture.md draws them. */
@AnalyzeClasses(
    packages = "org.isopach",
    importOptions = {ImportOption.DoNotIncludeTests.class, ArchitectureTest.NoTestJars.class})
class ArchitectureTest {
  private static final String ANALYSIS = "org.isopach.analysis..";
  private static final String DICOM = "org.isopach.dicom..";
  private static final String SEGMENT = "org.isopach.segment..";
  private static final String ALIGN = "org.isopach.align..";
  private static final String REPORT = "org.isopach.report..";
  private static final String JOB = "org.isopach.job..";
  private static final String CLI = "org.isopach.cli..";
  private static final String FIXTURES = "org.isopach.fixtures..";
  private static final int LEAST_CLASSES = 150;

  /** Leaves out what one module's tests lend to another's. */
  static final class NoTestJars implements ImportOption {
    @Override
    public boolean includes(Location location) {
      return !location.contains("-tests.jar");
    }
  }

  @ArchTest
  static void enoughIsScanned(JavaClasses scanned) {
    assertTrue(scanned.size() > LEAST_CLASSES, "only " + scanned.size() + " classes were scanned");
    for (String room : List.of(ANALYSIS, DICOM, SEGMENT, ALIGN, REPORT, JOB, CLI, FIXTURES)) {
      assertTrue(
          scanned.stream().anyMatch(resideInAPackage(room)),
          "no class of " + room + " was scanned");
    }
  }

  @ArchTest static final ArchRule analysisKnowsNoOtherRoom = knowsOnly(ANALYSIS, List.of(ANALYSIS));

  @ArchTest
  static final ArchRule dicomKnowsAnalysisOnly = knowsOnly(DICOM, List.of(DICOM, ANALYSIS));

  @ArchTest
  static final ArchRule segmentKnowsAnalysisOnly = knowsOnly(SEGMENT, List.of(SEGMENT, ANALYSIS));

  @ArchTest
  static final ArchRule alignKnowsAnalysisOnly = knowsOnly(ALIGN, List.of(ALIGN, ANALYSIS));

  @ArchTest
  static final ArchRule reportDoesNotKnowHowNumbersWereMade =
      knowsOnly(REPORT, List.of(REPORT, ANALYSIS));

  @ArchTest
  static final ArchRule jobDoesNotKnowWhoCalls =
      knowsOnly(JOB, List.of(JOB, ANALYSIS, DICOM, SEGMENT, ALIGN, REPORT));

  @ArchTest
  static final ArchRule truthNeverReachesTheAlgorithm =
      noClasses()
          .that()
          .resideInAnyPackage(ANALYSIS, DICOM, SEGMENT, ALIGN, REPORT, JOB)
          .should()
          .dependOnClassesThat()
          .resideInAPackage(FIXTURES);

  @ArchTest
  static final ArchRule theDicomToolkitStaysInItsRoom =
      classes()
          .that(not(resideInAPackage("org.isopach.dicom.toolkit..")))
          .should()
          .onlyDependOnClassesThat(not(resideInAPackage("com.pixelmed..")));

  @ArchTest
  static final ArchRule nativeCodeIsCalledFromOneRoom =
      noClasses()
          .that()
          .resideOutsideOfPackage("org.isopach.dicom.codec..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("com.sun.jna..");

  @ArchTest
  static final ArchRule theImageToolkitStaysInThePipeline =
      noClasses()
          .that()
          .resideOutsideOfPackages(SEGMENT, ALIGN)
          .should()
          .dependOnClassesThat()
          .resideInAPackage("ij..");

  @ArchTest
  static final ArchRule roomsHaveNoCycles =
      slices().matching("org.isopach.(*)..").should().beFreeOfCycles();

  @ArchTest
  static void onlyTheCommandLineUsesStandardStreams(JavaClasses scanned) {
    NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS.check(scanned.that(not(resideInAPackage(CLI))));
  }

  @ArchTest
  static final ArchRule digestsAreMadeInOnePlace =
      noClasses()
          .that()
          .doNotBelongToAnyOf(Sha256.class, DerivedUids.class)
          .and()
          .resideOutsideOfPackage(FIXTURES)
          .should()
          .callMethod(MessageDigest.class, "getInstance", String.class)
          .because("Sha256 and FileDigest do; DerivedUids needs SHA-1 for UUIDs");

  @ArchTest
  static final ArchRule filesAreHeldInOnePlace =
      noClasses()
          .that()
          .doNotBelongToAnyOf(HeldFile.class)
          .should()
          .callMethod(FileChannel.class, "tryLock");

  @ArchTest static final ArchRule noGenericExceptions = NO_CLASSES_SHOULD_THROW_GENERIC_EXCEPTIONS;

  @ArchTest static final ArchRule oneWayOfLogging = NO_CLASSES_SHOULD_USE_JAVA_UTIL_LOGGING;

  private static ArchRule knowsOnly(String room, List<String> known) {
    return noClasses()
        .that()
        .resideInAPackage(room)
        .should()
        .dependOnClassesThat(
            resideInAPackage("org.isopach..")
                .and(not(resideInAnyPackage(known.toArray(String[]::new)))));
  }
}

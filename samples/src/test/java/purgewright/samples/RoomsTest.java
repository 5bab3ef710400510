package purgewright.samples;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.io.File;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.FileWriter;
import java.nio.file.Files;
import java.util.Set;
import javax.imageio.ImageIO;

/** Who may know whom. Maven stops imports upward between modules; these rules stop the rest. */
@AnalyzeClasses(packages = "purgewright", importOptions = DoNotIncludeTests.class)
class RoomsTest {
    private static final String[] KERNEL = {"purgewright.fluids..", "purgewright.sealflow..", "purgewright.hazard.."};

    @ArchTest
    static final ArchRule dependenciesPointOneWay = layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("fluids")
            .definedBy("purgewright.fluids..")
            .layer("sealflow")
            .definedBy("purgewright.sealflow..")
            .layer("hazard")
            .definedBy("purgewright.hazard..")
            .layer("gui")
            .definedBy(
                    "purgewright",
                    "purgewright.gui..",
                    "purgewright.command..",
                    "purgewright.figure..",
                    "purgewright.result..",
                    "purgewright.report..")
            .whereLayer("gui")
            .mayNotBeAccessedByAnyLayer()
            .whereLayer("hazard")
            .mayOnlyBeAccessedByLayers("gui")
            .whereLayer("sealflow")
            .mayOnlyBeAccessedByLayers("gui", "hazard")
            .whereLayer("fluids")
            .mayOnlyBeAccessedByLayers("gui", "hazard", "sealflow");

    @ArchTest
    static final ArchRule everyClassLivesInARoom = classes()
            .should()
            .resideInAnyPackage(
                    "purgewright",
                    "purgewright.fluids",
                    "purgewright.fluids.unit..",
                    "purgewright.fluids.helmholtz..",
                    "purgewright.fluids.phase..",
                    "purgewright.fluids.transport..",
                    "purgewright.fluids.mixture..",
                    "purgewright.fluids.burnt..",
                    "purgewright.fluids.coolprop..",
                    "purgewright.fluids.validation..",
                    "purgewright.sealflow",
                    "purgewright.sealflow.model..",
                    "purgewright.sealflow.casefile..",
                    "purgewright.sealflow.passage..",
                    "purgewright.sealflow.gap..",
                    "purgewright.sealflow.rotating..",
                    "purgewright.sealflow.network..",
                    "purgewright.sealflow.transients..",
                    "purgewright.sealflow.supply..",
                    "purgewright.sealflow.campaign..",
                    "purgewright.sealflow.calibration..",
                    "purgewright.sealflow.validation..",
                    "purgewright.hazard",
                    "purgewright.hazard.flammability..",
                    "purgewright.hazard.deficiency..",
                    "purgewright.hazard.barrier..",
                    "purgewright.hazard.fault..",
                    "purgewright.hazard.criteria..",
                    "purgewright.hazard.finding..",
                    "purgewright.hazard.sizing..",
                    "purgewright.hazard.studies..",
                    "purgewright.hazard.service..",
                    "purgewright.hazard.validation..",
                    "purgewright.gui..",
                    "purgewright.command..",
                    "purgewright.figure..",
                    "purgewright.result..",
                    "purgewright.report..")
            .because("a new room is made on purpose: add it here and to DEVELOPERS.md");

    @ArchTest
    static final ArchRule jacksonStaysWithTheCaseFileAndTheResult = noClasses()
            .that()
            .resideOutsideOfPackages("purgewright.sealflow.casefile..", "purgewright.result..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("com.fasterxml..", "com.networknt..")
            .because("physics has no file format");

    @ArchTest
    static final ArchRule nativeCallsStayWithTheCoolPropLink = noClasses()
            .that()
            .resideOutsideOfPackage("purgewright.fluids.coolprop..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("com.sun.jna..")
            .because("whoever has no native library must never load one");

    @ArchTest
    static final ArchRule quantityTypesStayAtTheEdge = noClasses()
            .that()
            .resideOutsideOfPackage("purgewright.fluids.unit..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("javax.measure..", "tech.units..", "si.uom..", "systems.uom..")
            .because("the kernel works in SI doubles");

    @ArchTest
    static final ArchRule theToolkitStaysInTheWindow = noClasses()
            .that()
            .resideOutsideOfPackage("purgewright.gui..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("javafx..", "com.sun.javafx..", "atlantafx..", "org.kordamp..", "org.jfree.fx..")
            .because("a command must start without a window, and a figure is drawn without one");

    @ArchTest
    static final ArchRule nobodyReachesIntoTheWindow = noClasses()
            .that()
            .resideOutsideOfPackage("purgewright.gui..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("purgewright.gui..")
            .because("Main starts the window by name, all else does without it");

    @ArchTest
    static final ArchRule theKernelPrintsNothing = noClasses()
            .that()
            .resideInAnyPackage(KERNEL)
            .should(ACCESS_STANDARD_STREAMS)
            .because("what a calculation has to say is in its result");

    @ArchTest
    static final ArchRule onlyMainEndsTheProcess = noClasses()
            .that()
            .doNotHaveFullyQualifiedName("purgewright.Main")
            .should()
            .callMethod(System.class, "exit", int.class)
            .because("an exit code is a verdict, and one place answers for it");

    private static final Set<String> WRITING =
            Set.of("write", "writeString", "newBufferedWriter", "newOutputStream", "newByteChannel", "copy", "move");

    private static boolean writesAFile(JavaCall<?> call) {
        JavaClass owner = call.getTargetOwner();
        return (owner.isEquivalentTo(Files.class) && WRITING.contains(call.getName()))
                || owner.isEquivalentTo(FileWriter.class)
                || (owner.isEquivalentTo(FileOutputStream.class) && !takes(call, FileDescriptor.class))
                || (owner.isEquivalentTo(ImageIO.class) && takes(call, File.class));
    }

    private static boolean takes(JavaCall<?> call, Class<?> type) {
        return call.getTarget().getRawParameterTypes().stream().anyMatch(each -> each.isEquivalentTo(type));
    }

    /** Those left out: WholeFile itself, the window's settings, unsaved work, the manual of the package. */
    @ArchTest
    static final ArchRule filesAreWrittenWhole = noClasses()
            .that()
            .resideInAnyPackage(
                    "purgewright",
                    "purgewright.gui..",
                    "purgewright.command..",
                    "purgewright.figure..",
                    "purgewright.result..",
                    "purgewright.report..")
            .and()
            .doNotHaveFullyQualifiedName("purgewright.report.WholeFile")
            .and()
            .doNotHaveFullyQualifiedName("purgewright.gui.edit.Settings")
            .and()
            .doNotHaveFullyQualifiedName("purgewright.gui.edit.Recovery")
            .and()
            .doNotHaveFullyQualifiedName("purgewright.command.Manual")
            .should()
            .callCodeUnitWhere(describe("it writes a file", RoomsTest::writesAFile))
            .because("a kill or a full disk must never leave half of a user's file: WholeFile");

    @ArchTest
    static final ArchRule roomsFormNoCircle =
            slices().matching("purgewright.(*).(*)..").should().beFreeOfCycles();
}

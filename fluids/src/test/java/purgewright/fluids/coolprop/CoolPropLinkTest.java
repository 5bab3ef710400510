package purgewright.fluids.coolprop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.sun.jna.Function;
import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PropertyException.Key;
import purgewright.fluids.PureFluid;

/** The sequence of native calls, against a stand-in library built from standin.c; the real library where it is installed. */
class CoolPropLinkTest {
    @TempDir
    static Path folder;

    private static File library;

    @BeforeAll
    static void buildTheStandIn() throws Exception {
        library = build("good");
    }

    /** Builds the stand-in with gcc; null where there is none. */
    private static File build(String name, String... definitions) throws IOException, InterruptedException {
        Path source = folder.resolve("standin.c");
        try (InputStream text = CoolPropLinkTest.class.getResourceAsStream("standin.c")) {
            Files.write(source, text.readAllBytes());
        }
        Path place = Files.createDirectories(folder.resolve(name));
        File target = place.resolve(System.mapLibraryName("CoolProp")).toFile();
        List<String> command = new ArrayList<>(List.of("gcc", "-shared", "-fPIC", "-O1"));
        command.addAll(List.of(definitions));
        command.addAll(List.of("-o", target.getPath(), source.toString(), "-lm"));
        try {
            Process process =
                    new ProcessBuilder(command).redirectErrorStream(true).start();
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(process.exitValue()).as(said).isZero();
            return target;
        } catch (IOException e) {
            return null;
        }
    }

    private static CoolPropEngine standIn() {
        assumeTrue(library != null, "no gcc here: the stand-in for the native library cannot be built");
        return CoolPropEngine.open(library);
    }

    private static int ask(String function) {
        return Function.getFunction(library.getAbsolutePath(), function).invokeInt(new Object[0]);
    }

    @Test
    void statesComeThroughAndHandlesAreFreed() {
        int before;
        try (CoolPropEngine engine = standIn()) {
            before = ask("standin_alive");
            PureFluid helium = engine.pure("GHe");
            assertThat(engine.name()).isEqualTo("CoolProp 8.0.0 stand-in");
            assertThat(helium.name()).isEqualTo("helium");
            assertThat(helium.criticalTemperature()).isEqualTo(5.2);
            FluidState state = helium.atPressureTemperature(2e5, 300);
            assertThat(state.density()).isCloseTo(2e5 / (2077 * 300), within(1e-12));
            assertThat(state.phase()).isEqualTo(Phase.GAS);
            assertThat(state.quality()).isEqualTo(1);
            assertThat(helium.atPressureEnthalpy(2e5, state.enthalpy()).temperature())
                    .isCloseTo(300, within(1e-9));
            assertThat(helium.atPressureEntropy(2e5, state.entropy()).temperature())
                    .isCloseTo(300, within(1e-9));
            assertThat(helium.atDensityTemperature(state.density(), 300).pressure())
                    .isCloseTo(2e5, within(1e-6));
            assertThat(helium.atPressureDensity(2e5, state.density()).temperature())
                    .isCloseTo(300, within(1e-9));
            assertThat(helium.atEnthalpyEntropy(state.enthalpy(), state.entropy())
                            .pressure())
                    .isCloseTo(2e5, within(1e-4));
            assertThat(helium.viscosity(state)).isCloseTo(2e-5, within(1e-12));
            assertThat(helium.idealGasHeatCapacityRatio(300)).isCloseTo(5193.0 / 3116, within(1e-9));
            FluidState dome = helium.atPressureQuality(1e5, 0.4);
            assertThat(dome.phase()).isEqualTo(Phase.TWO_PHASE);
            assertThat(dome.cp()).isNaN();
            assertThat(dome.soundSpeed()).isPositive();
            assertThat(helium.saturationTemperature(helium.saturationPressure(4)))
                    .isCloseTo(4, within(1e-9));
            assertThat(engine.handles())
                    .isEqualTo(ask("standin_alive") - before)
                    .isPositive();
        }
        assertThat(ask("standin_alive")).isEqualTo(before);
        assertThat(ask("standin_overlaps")).isZero();
    }

    @Test
    void aNativeErrorCarriesTheLibrarysWords() {
        try (CoolPropEngine engine = standIn()) {
            PureFluid helium = engine.pure("helium");
            assertThatThrownBy(() -> helium.atPressureTemperature(1e5, -3))
                    .isInstanceOfSatisfying(PropertyException.class, e -> {
                        assertThat(e.key()).isEqualTo(Key.NO_SUCH_STATE);
                        assertThat(e.values())
                                .containsEntry("message", "stand-in: temperature or pressure out of range")
                                .containsEntry("temperature", -3.0);
                    });
            assertThatThrownBy(() -> helium.conductivity(helium.atPressureTemperature(1e5, 300)))
                    .isInstanceOfSatisfying(
                            PropertyException.class, e -> assertThat(e.key()).isEqualTo(Key.NO_MODEL));
            // The object that failed is as good as new.
            assertThat(helium.atPressureTemperature(1e5, 300).temperature()).isEqualTo(300);
            assertThatThrownBy(() -> engine.pure("neon"))
                    .isInstanceOfSatisfying(
                            PropertyException.class, e -> assertThat(e.key()).isEqualTo(Key.UNKNOWN_FLUID));
            assertThatThrownBy(() -> engine.pure("unobtainium"))
                    .isInstanceOfSatisfying(
                            PropertyException.class, e -> assertThat(e.key()).isEqualTo(Key.UNKNOWN_FLUID));
        }
    }

    @Test
    void threadsNeverShareAHandle() throws Exception {
        try (CoolPropEngine engine = standIn()) {
            ExecutorService pool = Executors.newFixedThreadPool(4);
            List<Future<Boolean>> answers = new ArrayList<>();
            for (int i = 0; i < 4; i++) {
                double t = 100 + 50 * i;
                answers.add(pool.submit(() -> {
                    for (int k = 0; k < 500; k++) {
                        FluidState state =
                                engine.pure(k % 2 == 0 ? "helium" : "nitrogen").atPressureTemperature(1e5 + k, t);
                        if (state.temperature() != t || state.pressure() != 1e5 + k) {
                            return false;
                        }
                    }
                    return true;
                }));
            }
            for (Future<Boolean> answer : answers) {
                assertThat(answer.get()).isTrue();
            }
            pool.shutdown();
            assertThat(engine.handles()).isLessThanOrEqualTo(10);
        }
        assertThat(ask("standin_overlaps")).isZero();
    }

    @Test
    void aClosedEngineAnswersNoMore() {
        CoolPropEngine engine = standIn();
        PureFluid helium = engine.pure("helium");
        engine.close();
        engine.close();
        assertThatThrownBy(() -> helium.atPressureTemperature(1e5, 300)).isInstanceOf(IllegalStateException.class);
        assertThat(engine.handles()).isZero();
    }

    @Test
    void aMissingOldOrCrippledLibraryIsSaidClearly() throws Exception {
        assertMissing(folder.resolve("nowhere").toFile(), "does not exist");
        assertMissing(Files.createDirectories(folder.resolve("empty")).toFile(), "there is no");
        File text =
                Files.writeString(folder.resolve("libText.so"), "not a library").toFile();
        assertMissing(text, "could not be loaded");
        standIn().close();
        assertMissing(build("old", "-DVERSION=\"5.1.2\""), "too old");
        assertMissing(build("crippled", "-DWITHOUT_UPDATE"), "could not be loaded");
    }

    private static void assertMissing(File place, String words) {
        assertThatThrownBy(() -> CoolPropEngine.open(place)).isInstanceOfSatisfying(PropertyException.class, e -> {
            assertThat(e.key()).isEqualTo(Key.LIBRARY_MISSING);
            assertThat(e.values().get("what").toString()).contains(words);
            assertThat(e.values().get("help").toString()).contains(CoolPropEngine.VARIABLE);
        });
    }

    @Test
    void versionsAreComparedByNumber() {
        assertThat(CoolPropEngine.isOlder("6.3.0", "6.4.0")).isTrue();
        assertThat(CoolPropEngine.isOlder("6.10.1", "6.4.0")).isFalse();
        assertThat(CoolPropEngine.isOlder("8.0.1dev", "6.4.0")).isFalse();
        assertThat(CoolPropEngine.isOlder("", "6.4.0")).isTrue();
    }

    @Test
    @DisplayName("Embedded equations agree with the installed CoolProp (skipped where there is none)")
    void theRealLibraryAgreesWithTheEmbeddedEquations() {
        CoolPropEngine real;
        try {
            real = CoolPropEngine.open();
        } catch (PropertyException e) {
            assumeTrue(false, "no CoolProp library here: " + e.getMessage());
            return;
        }
        try (real) {
            for (String name : List.of("helium", "nitrogen", "oxygen", "methane", "parahydrogen", "water")) {
                PureFluid theirs = real.pure(name);
                PureFluid ours = Engines.embedded().pure(name);
                for (double t : new double[] {0.8, 1.2, 1.8, 3}) {
                    double temperature = Math.min(
                            0.9 * ours.maximumTemperature(),
                            Math.max(t * ours.criticalTemperature(), 1.05 * ours.tripleTemperature()));
                    FluidState a = theirs.atPressureTemperature(2e6, temperature);
                    FluidState b = ours.atPressureTemperature(2e6, temperature);
                    assertThat(b.density()).as(name).isCloseTo(a.density(), within(1e-8 * a.density()));
                    assertThat(b.soundSpeed()).as(name).isCloseTo(a.soundSpeed(), within(1e-8 * a.soundSpeed()));
                    assertThat(b.cp()).as(name).isCloseTo(a.cp(), within(1e-8 * a.cp()));
                }
                FluidState a = theirs.atTemperatureQuality(0.8 * ours.criticalTemperature(), 0.5);
                FluidState b = ours.atTemperatureQuality(0.8 * ours.criticalTemperature(), 0.5);
                assertThat(b.pressure()).as(name).isCloseTo(a.pressure(), within(1e-6 * a.pressure()));
                assertThat(b.soundSpeed()).as(name).isCloseTo(a.soundSpeed(), within(1e-2 * a.soundSpeed()));
            }
        }
        assertThat(real.handles()).isZero();
    }
}

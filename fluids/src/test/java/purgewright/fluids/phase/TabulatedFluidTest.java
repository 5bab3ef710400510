package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import purgewright.fluids.Engines;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyEngine;
import purgewright.fluids.PropertyException;
import purgewright.fluids.PureFluid;

class TabulatedFluidTest {
    private static EmbeddedFluid exact(String name) {
        return (EmbeddedFluid) Engines.embedded().pure(name);
    }

    private static final Map<String, TabulatedFluid> TABLES = new ConcurrentHashMap<>();

    private static TabulatedFluid table(String name) {
        EmbeddedFluid fluid = exact(name);
        return TABLES.computeIfAbsent(name, key -> TabulatedFluid.build(fluid, TabulatedFluid.Range.of(fluid)));
    }

    static java.util.List<String> fluids() {
        return Engines.embedded().fluidNames();
    }

    @ParameterizedTest
    @MethodSource("fluids")
    void theMeasuredErrorIsWithinAMillionthAndFewCellsAreLeftToTheEquations(String name) {
        TabulatedFluid.MeasuredError error = table(name).measure(3000);
        // the sharp terms of these two make their fourth differences a poorer judge
        double limit = name.equals("water") || name.equals("carbon-dioxide") ? 3e-6 : 1e-6;
        assertThat(error.points()).isGreaterThan(2500);
        assertThat(error.temperature()).isLessThan(limit);
        assertThat(error.density()).isLessThan(limit);
        assertThat(error.entropy()).isLessThan(limit);
        assertThat(error.soundSpeed()).isLessThan(limit);
        assertThat(error.nearCritical()).isLessThan(limit);
        // where helium's two published viscosities meet there is a step of 2 %, and no spline over it
        assertThat(error.viscosity()).isLessThan(name.equals("helium") ? 1e-3 : 1e-5);
        assertThat(error.leftToEquations()).isBetween(0.0, 0.04);
    }

    @Test
    void aBufferHoldsWhatTheStateHoldsInsideTheTableTheDomeAndBeyond() {
        StateBuffer buffer = new StateBuffer();
        for (PureFluid fluid : new PureFluid[] {table("oxygen"), exact("oxygen")}) {
            FluidState known = fluid.atPressureTemperature(1e6, 300);
            for (double p : new double[] {2e5, 3e6, 2e7}) {
                for (double h : new double[] {-1.2e5, 0, known.enthalpy()}) {
                    fluid.atPressureEnthalpy(p, h, known, buffer);
                    assertThat(buffer.toState(fluid)).isEqualTo(fluid.atPressureEnthalpy(p, h, known));
                    double entropy = buffer.entropy();
                    fluid.atPressureEntropy(p, entropy, known, buffer);
                    assertThat(buffer.toState(fluid)).isEqualTo(fluid.atPressureEntropy(p, entropy, known));
                    FluidState state = buffer.toState(fluid);
                    StateBuffer copy = new StateBuffer();
                    copy.set(state);
                    assertThat(copy.toState(fluid)).isEqualTo(state);
                }
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"nitrogen", "oxygen", "methane", "helium"})
    void pressureEntropyAndTheIsentropeAgreeWithPressureEnthalpy(String name) {
        TabulatedFluid fluid = table(name);
        SplittableRandom random = new SplittableRandom(5);
        double[] out = new double[6];
        for (int i = 0; i < 2000; i++) {
            double p = 1e5 * Math.pow(300, random.nextDouble());
            double coldest =
                    name.equals("helium") ? 5 : 0.7; // helium freezes above 20 MPa near its critical temperature
            double t = fluid.criticalTemperature() * (coldest + 2 * random.nextDouble());
            FluidState exact = fluid.exact().atPressureTemperature(p, t);
            FluidState s = fluid.atPressureEnthalpy(p, exact.enthalpy());
            FluidState back = fluid.atPressureEntropy(p, s.entropy());
            assertThat(back.enthalpy()).isCloseTo(s.enthalpy(), within(1e-8 * s.cp() * t));
            assertThat(back.density()).isCloseTo(s.density(), within(1e-7 * s.density()));
            assertThat(back.fluid()).isSameAs(fluid);
            fluid.isentrope(p, s.entropy(), out);
            assertThat(out[0]).isCloseTo(back.density(), within(1e-14 * s.density()));
            assertThat(out[1]).isEqualTo(back.enthalpy());
            fluid.lookUp(p, exact.enthalpy(), out);
            assertThat(out[1]).isEqualTo(s.density());
            assertThat(out[5]).isEqualTo(s.soundSpeed());
            assertThat(fluid.viscosity(s))
                    .isCloseTo(
                            fluid.exact().viscosity(exact),
                            within(2e-2 * fluid.exact().viscosity(exact)));
        }
    }

    @Test
    void slopesAreContinuousAcrossTheCellsOfAPatch() {
        TabulatedFluid fluid = table("nitrogen");
        // walk along an isobar in steps far smaller than a cell: the second difference has no spikes
        double p = 8e6;
        double h = 1e5;
        double step = 20;
        double last = Double.NaN;
        double lastSlope = Double.NaN;
        for (int i = 0; i < 20000; i++) {
            double rho = fluid.atPressureEnthalpy(p, h + i * step).density();
            double slope = (rho - last) / step;
            if (!Double.isNaN(lastSlope)) {
                assertThat(Math.abs(slope - lastSlope))
                        .as("at %s J/kg", h + i * step)
                        .isLessThan(2e-3 * Math.abs(slope));
            }
            lastSlope = slope;
            last = rho;
        }
    }

    @ParameterizedTest
    @CsvSource({"nitrogen", "oxygen", "water"})
    void theDomeIsTheEquationsDome(String name) {
        TabulatedFluid fluid = table(name);
        SplittableRandom random = new SplittableRandom(9);
        for (int i = 0; i < 1000; i++) {
            double t = fluid.criticalTemperature() * (0.6 + 0.38 * random.nextDouble());
            FluidState exact = fluid.exact().atTemperatureQuality(t, random.nextDouble());
            FluidState s = fluid.atPressureEnthalpy(exact.pressure(), exact.enthalpy());
            assertThat(s.phase()).isEqualTo(Phase.TWO_PHASE);
            assertThat(s.temperature()).isCloseTo(t, within(1e-7 * t));
            assertThat(s.density()).isCloseTo(exact.density(), within(1e-6 * exact.density()));
            assertThat(s.soundSpeed()).isCloseTo(exact.soundSpeed(), within(1e-4 * exact.soundSpeed()));
            assertThat(fluid.viscosity(s)).isCloseTo(fluid.exact().viscosity(exact), within(1e-4 * fluid.viscosity(s)));
        }
    }

    @Test
    void outsideTheTableTheEquationsAnswerOrRefuse() {
        EmbeddedFluid exact = exact("nitrogen");
        TabulatedFluid fluid = TabulatedFluid.build(exact, new TabulatedFluid.Range(1e4, 1e7, 70, 400), 0.5);
        double h = exact.atPressureTemperature(5e7, 900).enthalpy();
        assertThat(fluid.atPressureEnthalpy(5e7, h).temperature()).isCloseTo(900, within(1e-6));
        assertThatThrownBy(() -> fluid.atPressureEnthalpy(1e6, -1e6)).isInstanceOf(PropertyException.class);
        assertThat(fluid.atPressureTemperature(1e6, 300).fluid()).isSameAs(fluid);
    }

    @Test
    void aTableOfGasAloneHasNoDome() {
        EmbeddedFluid exact = exact("helium");
        TabulatedFluid fluid = TabulatedFluid.build(exact, new TabulatedFluid.Range(1e4, 5e7, 20, 400));
        TabulatedFluid.MeasuredError error = fluid.measure(3000);
        assertThat(error.points()).isGreaterThan(2900);
        assertThat(error.temperature()).isLessThan(2e-6);
        assertThat(error.density()).isLessThan(2e-6);
        assertThat(error.soundSpeed()).isLessThan(5e-6);
    }

    @Test
    void preparingAFluidChangesNoStateBeyondTheSearchsTolerance() {
        EmbeddedFluid plain = EmbeddedFluid.load("methane");
        EmbeddedFluid prepared = EmbeddedFluid.load("methane");
        prepared.prepare();
        SplittableRandom random = new SplittableRandom(3);
        for (int i = 0; i < 3000; i++) {
            double t = 95 + 500 * random.nextDouble();
            double p = 1e4 * Math.pow(3000, random.nextDouble());
            FluidState s = plain.atPressureTemperature(p, t);
            FluidState a = plain.atPressureEnthalpy(p, s.enthalpy());
            FluidState b = prepared.atPressureEnthalpy(p, s.enthalpy());
            assertThat(b.temperature()).isCloseTo(a.temperature(), within(1e-10 * t));
            assertThat(prepared.atPressureEntropy(p, s.entropy()).temperature()).isCloseTo(t, within(1e-9 * t));
        }
    }

    @Test
    void aStoredTableIsReadBackAndADamagedOneIsBuiltAnew(@TempDir Path folder) throws IOException {
        EmbeddedFluid exact = exact("argon");
        TabulatedFluid.Range range = new TabulatedFluid.Range(1e5, 2e7, 160, 400);
        TableStore store = new TableStore(folder);
        TabulatedFluid first = store.table(exact, range);
        Path file;
        try (var files = Files.list(folder)) {
            file = files.findFirst().orElseThrow();
        }
        long written = Files.getLastModifiedTime(file).toMillis();
        TabulatedFluid second = store.table(exact, range);
        double h = exact.atPressureTemperature(3e6, 250).enthalpy();
        assertThat(second.atPressureEnthalpy(3e6, h).density())
                .isEqualTo(first.atPressureEnthalpy(3e6, h).density());
        assertThat(Files.getLastModifiedTime(file).toMillis()).isEqualTo(written);

        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 1;
        Files.write(file, bytes);
        assertThat(store.table(exact, range).atPressureEnthalpy(3e6, h).density())
                .isEqualTo(first.atPressureEnthalpy(3e6, h).density());
        byte[] mended = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 1;
        assertThat(mended).isEqualTo(bytes);

        Files.write(file, new byte[] {1, 2, 3});
        assertThat(store.table(exact, range).atPressureEnthalpy(3e6, h).density())
                .isEqualTo(first.atPressureEnthalpy(3e6, h).density());
        try (var files = Files.list(folder)) {
            assertThat(files).hasSize(1); // no temporary files left
        }
    }

    @Test
    void withoutAFolderToWriteTheTableIsInMemory(@TempDir Path folder) throws IOException {
        Path occupied = Files.writeString(folder.resolve("file"), "not a folder");
        TabulatedFluid.Range range = new TabulatedFluid.Range(1e5, 2e7, 160, 400);
        assertThat(new TableStore(occupied).table(exact("argon"), range)).isNotNull();
        assertThat(new TableStore(null).table(exact("argon"), range)).isNotNull();
    }

    @Test
    void theTabulatedEngineHandsOutTables() {
        PropertyEngine engine = Engines.tabulated(new TableStore(null));
        PureFluid fluid = engine.pure("GN2");
        assertThat(fluid).isInstanceOf(TabulatedFluid.class).isSameAs(engine.pure("nitrogen"));
        assertThat(engine.name()).contains("tables");
        assertThat(engine.fluidNames()).isEqualTo(Engines.embedded().fluidNames());
    }
}

package purgewright.fluids.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.DoubleBuffer;
import java.util.SplittableRandom;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import purgewright.fluids.Engines;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.PureFluid;
import purgewright.fluids.helmholtz.Coefficients;
import purgewright.fluids.helmholtz.HelmholtzEquation;
import purgewright.fluids.helmholtz.HelmholtzEquation.Workspace;

@DisplayName(
        "What tables and the saturation line are made of: splines of cubics are exact, grids follow their formula, slopes are differences")
class PhasePartsTest {
    // ---- splines: a product of cubics is its own spline

    private static double cubic(double x, int k) {
        return 1 + k + (0.3 - 0.1 * k) * x + (0.02 + 0.01 * k) * x * x - 0.003 * (k + 1) * x * x * x;
    }

    private static double field(double u, double v, int k) {
        return cubic(u, k) * cubic(v + 1, k + 1);
    }

    private static Splines made(int uCount, int vCount, int fields, int from) {
        double[] values = new double[uCount * vCount * fields];
        for (int i = 0; i < uCount; i++) {
            for (int j = 0; j < vCount; j++) {
                for (int k = 0; k < fields; k++) {
                    values[(i * vCount + j) * fields + k] = field(i, j, from + k);
                }
            }
        }
        return Splines.through(uCount, vCount, fields, values);
    }

    private static void near(double value, double expected) {
        assertThat(value).isCloseTo(expected, within(1e-11 * Math.max(1, Math.abs(expected))));
    }

    @Test
    void splinesOfCubicsAreTheCubics() {
        int nu = 9;
        int nv = 11;
        Splines two = made(nu, nv, 2, 0);
        Splines four = made(nu, nv, 4, 2);
        double[] pair = new double[2];
        double[] six = new double[6];
        for (double u = 0; u < nu - 1; u += 0.37) {
            for (double v = 0; v < nv - 1; v += 0.41) {
                int i = (int) u;
                int j = (int) v;
                double s = u - i;
                double t = v - j;
                two.pair(i, s, j, t, pair);
                two.six(four, i, s, j, t, six);
                for (int k = 0; k < 6; k++) {
                    near(six[k], field(u, v, k));
                    near(k < 2 ? two.at(i, s, j, t, k) : four.at(i, s, j, t, k - 2), field(u, v, k));
                }
                near(pair[0], six[0]);
                near(pair[1], six[1]);
                // the place of a value, from a start a little off
                double place = four.find(i, s, j, Math.min(1, t + 0.1), 1, field(u, v, 3));
                assertThat(place).isCloseTo(t, within(1e-8));
            }
        }
        double[] values = two.values();
        for (int i = 0; i < nu; i++) {
            for (int j = 0; j < nv; j++) {
                for (int k = 0; k < 2; k++) {
                    near(values[(i * nv + j) * 2 + k], field(i, j, k));
                }
            }
        }
        assertThat(two.size()).isEqualTo((nu + 2) * (nv + 2) * 2);
        // the place may lie in the next cell: cubics go on there
        assertThat(four.find(2, 0.3, 4, 0.5, 1, field(2.3, 5.2, 3))).isCloseTo(1.2, within(1e-8));
    }

    @Test
    void splinesCurveSmoothlyAndConvergeWithTheFourthPowerOfTheStep() {
        double[] worst = new double[2];
        for (int n = 0; n < 2; n++) {
            int count = n == 0 ? 15 : 29;
            double h = 1.4 / (count - 1);
            double[] y = new double[count];
            for (int i = 0; i < count; i++) {
                y[i] = Math.exp(i * h);
            }
            double[] c = Splines.coefficients(y);
            assertThat(c).hasSize(count + 2);
            for (int i = 0; i < count - 1; i++) {
                // at the middle of an interval: (c0 + 23 c1 + 23 c2 + c3) / 48
                double middle = (c[i] + 23 * c[i + 1] + 23 * c[i + 2] + c[i + 3]) / 48;
                worst[n] = Math.max(worst[n], Math.abs(middle - Math.exp((i + 0.5) * h)));
            }
        }
        assertThat(worst[0]).isLessThan(2e-6);
        assertThat(worst[0] / worst[1]).isBetween(12.0, 24.0);
    }

    @Test
    void splinesAreReadBackAsWrittenAndPromisesAreChecked() {
        Splines made = made(8, 9, 2, 0);
        DoubleBuffer buffer = DoubleBuffer.allocate(made.stored());
        made.write(buffer);
        assertThat(buffer.hasRemaining()).isFalse();
        buffer.flip();
        Splines back = Splines.read(buffer);
        assertThat(back.values()).isEqualTo(made.values());
        assertThat(back.at(3, 0.2, 4, 0.7, 1)).isEqualTo(made.at(3, 0.2, 4, 0.7, 1));
        DoubleBuffer less = DoubleBuffer.allocate(20);
        less.put(8).put(9).put(2);
        less.clear();
        assertThatThrownBy(() -> Splines.read(less)).isInstanceOf(IllegalArgumentException.class);
    }

    // ---- grids

    private static Grid grid(double sign) {
        int n = 8;
        double[] base = new double[n];
        double[] extent = new double[n];
        double[] cold = new double[n];
        for (int i = 0; i < n; i++) {
            base[i] = 1e5 * cubic(i, 0);
            extent[i] = 2 + 0.1 * i;
            cold[i] = 60 + i * i;
        }
        return new Grid(3, 0.5, 21, 2e4, sign, base, extent, cold);
    }

    @Test
    void aGridsPlaceIsTheLogarithmicDistanceAsAShareOfItsExtent() {
        for (double sign : new double[] {1, -1}) {
            Grid g = grid(sign);
            assertThat(g.u(0)).isEqualTo(3);
            near(g.u(4), 5);
            for (double u = 3; u < 6.4; u += 0.23) {
                double position = g.position(u);
                near(position, (u - 3) / 0.5);
                double whole = g.interval(position);
                int i = Grid.index(whole);
                double s = Grid.share(position, whole);
                near(i + s, position);
                assertThat(i).isEqualTo((int) position);
                double x = position;
                double base = 1e5 * cubic(x, 0);
                double extent = 2 + 0.1 * x;
                for (double v : new double[] {0, 0.3, 0.77, 1}) {
                    double value = base + sign * 2e4 * (Math.exp(v * extent) - 1);
                    double distance = g.distance(i, s, value);
                    near(distance, Math.exp(v * extent) - 1);
                    double place = g.place(i, s, distance);
                    near(place, v * 20);
                    assertThat(g.holds(place)).isTrue();
                    assertThat(g.value(i, s, place)).isCloseTo(value, within(1e-9 * Math.abs(value)));
                    double cell = g.cell(place);
                    near(Grid.index(cell) + Grid.share(place, cell), place);
                    assertThat(Grid.index(cell)).isBetween(0, 19);
                }
                near(g.coldest(i, s), 60 + x * x);
            }
            for (int i = 0; i < 8; i++) {
                for (int j = 0; j <= 20; j += 5) {
                    double value = 1e5 * cubic(i, 0) + sign * 2e4 * (Math.exp(j / 20.0 * (2 + 0.1 * i)) - 1);
                    assertThat(g.value(i, j)).isCloseTo(value, within(1e-9 * Math.abs(value)));
                }
            }
            // clipped at both ends, a hair outside is on the edge
            assertThat(Grid.index(g.interval(-3))).isZero();
            assertThat(Grid.index(g.interval(100))).isEqualTo(6);
            assertThat(Grid.index(g.interval(7))).isEqualTo(6);
            assertThat(Grid.index(g.cell(-1))).isZero();
            assertThat(Grid.index(g.cell(20))).isEqualTo(19);
            assertThat(Grid.index(g.cell(99))).isEqualTo(19);
            assertThat(g.holds(-1e-5)).isTrue();
            assertThat(g.holds(20 + 1e-5)).isTrue();
            assertThat(g.holds(-4e-5)).isFalse();
            assertThat(g.holds(20 + 4e-5)).isFalse();
            assertThat(g.holds(Double.NaN)).isFalse();
            near(Grid.extent(5, 5 + 3e4, 2e4), Math.log(2.5));
            near(Grid.extent(5, 5 - 3e4, 2e4), Math.log(2.5));
            DoubleBuffer buffer = DoubleBuffer.allocate(g.stored());
            g.write(buffer);
            assertThat(buffer.hasRemaining()).isFalse();
            buffer.flip();
            Grid back = Grid.read(buffer);
            assertThat(back.value(3, 7)).isEqualTo(g.value(3, 7));
            assertThat(back.coldest(2, 0.4)).isEqualTo(g.coldest(2, 0.4));
            assertThat(back.place(2, 0.4, 1.5)).isEqualTo(g.place(2, 0.4, 1.5));
            assertThat(back.position(4.4)).isEqualTo(g.position(4.4));
            assertThat(back.size()).isEqualTo(12 * 7);
        }
    }

    // ---- regions: which cells are too coarse, and the place of an entropy

    private static Splines flat(int nu, int nv, int fields, double value) {
        double[] values = new double[nu * nv * fields];
        java.util.Arrays.fill(values, value);
        return Splines.through(nu, nv, fields, values);
    }

    /** A region whose entropy rises evenly with the place, and whose temperature has a quartic of a given height over u or v. */
    private static Region region(double overU, double overV, int field, boolean transport) {
        int nu = 12;
        int nv = 13;
        double[] base = new double[nu];
        double[] extent = new double[nu];
        java.util.Arrays.fill(extent, 1);
        Grid grid = new Grid(0, 1, nv, 1, 1, base, extent, base);
        double[] volume = new double[nu * nv * 2];
        double[] caloric = new double[nu * nv * 4];
        double[] carried = new double[nu * nv * 2];
        java.util.Arrays.fill(volume, 100);
        java.util.Arrays.fill(caloric, 2);
        java.util.Arrays.fill(carried, 4);
        for (int i = 0; i < nu; i++) {
            for (int j = 0; j < nv; j++) {
                double bump = overU * Math.pow(i / 10.0, 4) + overV * Math.pow(j / 10.0, 4);
                int node = i * nv + j;
                if (transport) {
                    carried[2 * node + field] += bump;
                } else if (field < 2) {
                    volume[2 * node + field] += bump;
                } else {
                    caloric[4 * node + field - 2] += bump;
                }
                if (transport || field != 2) {
                    caloric[4 * node] = 10 * j + i;
                }
            }
        }
        double[] places = new double[nu * nv];
        for (int i = 0; i < nu; i++) {
            for (int j = 0; j < nv; j++) {
                // entropy 1 e^v - 1 over its own grid, v = j / 12
                places[i * nv + j] = (120 * (Math.exp(j / 12.0) - 1) / (Math.E - 1)) / 10;
            }
        }
        double[] start = new double[nu];
        double[] whole = new double[nu];
        for (int i = 0; i < nu; i++) {
            start[i] = i;
            whole[i] = 1;
        }
        Grid byEntropy = new Grid(0, 1, nv, 120 / (Math.E - 1), 1, start, whole, base);
        return new Region(
                grid,
                Splines.through(nu, nv, 2, volume),
                Splines.through(nu, nv, 4, caloric),
                Splines.through(nu, nv, 2, carried),
                byEntropy,
                Splines.through(nu, nv, 1, places),
                true);
    }

    private static int coarse(Region r, boolean transport) {
        int n = 0;
        for (int i = 0; i < 11; i++) {
            for (int j = 0; j < 12; j++) {
                n += (transport ? r.coarseTransport(i, j) : r.coarse(i, j)) ? 1 : 0;
            }
        }
        return n;
    }

    @Test
    void aCellIsCoarseWhereTheFourthDifferenceSaysSo() {
        // Fourth difference of a (x/10)^4 is 24 a / 1e4 everywhere; error 2/384 of it, four times at the edges; over
        // 100.
        double perUnit = 2.0 / 384 * 24e-4 / 100;
        double inner = 1e-6 / perUnit;
        for (int field = 0; field < 2; field++) {
            for (int way = 0; way < 2; way++) {
                // the quartic itself is at most 2 a on top of 100: the scale moves by less than 5 %
                double u = way == 0 ? 1 : 0;
                assertThat(coarse(region(0.9 * 0.25 * inner * u, 0.9 * 0.25 * inner * (1 - u), field, false), false))
                        .as("field %s", field)
                        .isZero();
                int edges = coarse(region(0.9 * inner * u, 0.9 * inner * (1 - u), field, false), false);
                assertThat(edges).as("edges alone").isPositive().isLessThan(11 * 12);
            }
        }
        double sound = 1e-6 / (2.0 / 384 * 24e-4 / 2);
        assertThat(coarse(region(0.2 * sound, 0, 5, false), false)).isZero();
        assertThat(coarse(region(0.8 * sound, 0, 5, false), false)).isPositive().isLessThan(132);
        assertThat(coarse(region(3 * sound, 0, 5, false), false)).isGreaterThan(100);
        double ofOne = 1e-5 / (2.0 / 384 * 24e-4);
        assertThat(coarse(region(0, 0.2 * ofOne, 0, true), true)).isZero();
        assertThat(coarse(region(0, 0.8 * ofOne, 0, true), true)).isPositive().isLessThan(132);
        assertThat(coarse(region(0, 1.5 * ofOne, 0, true), true)).isEqualTo(132);
        assertThat(coarse(region(0, 1.5 * ofOne, 0, true), false)).isZero();
        double conductivity = 1e-5 / (2.0 / 384 * 24e-4 / 4);
        assertThat(coarse(region(0.2 * conductivity, 0, 1, true), true)).isZero();
        assertThat(coarse(region(0.8 * conductivity, 0, 1, true), true))
                .isPositive()
                .isLessThan(132);
        // what is no number is coarse
        assertThat(coarse(region(Double.NaN, 0, 0, false), false)).isEqualTo(132);
        assertThat(coarse(region(0, 0, 0, false), false)).isZero();
    }

    @Test
    void thePlaceOfAnEntropyIsFoundOrNone() {
        Region r = region(0, 0, 0, false);
        for (double u = 0.2; u < 11; u += 0.9) {
            for (double place = 0.1; place < 12; place += 0.7) {
                int i = (int) u;
                double entropy = 10 * place + u;
                double distance = r.byEntropy.distance(i, u - i, entropy);
                assertThat(r.placeOfEntropy(i, u - i, distance, entropy)).isCloseTo(place, within(1e-9));
            }
            int i = (int) u;
            assertThat(r.placeOfEntropy(i, u - i, r.byEntropy.distance(i, u - i, u - 5), u - 5))
                    .isNaN();
            assertThat(r.placeOfEntropy(i, u - i, r.byEntropy.distance(i, u - i, 130 + u), 130 + u))
                    .isNaN();
        }
        DoubleBuffer buffer = DoubleBuffer.allocate(r.stored());
        r.write(buffer);
        assertThat(buffer.hasRemaining()).isFalse();
        buffer.flip();
        Region back = Region.read(buffer);
        assertThat(back.liquid).isTrue();
        assertThat(back.size()).isEqualTo(r.size());
        assertThat(back.placeOfEntropy(3, 0.5, r.byEntropy.distance(3, 0.5, 47), 47))
                .isEqualTo(r.placeOfEntropy(3, 0.5, r.byEntropy.distance(3, 0.5, 47), 47));
        assertThat(back.volume.values()).isEqualTo(r.volume.values());
        assertThat(back.transport.values()).isEqualTo(r.transport.values());
    }

    // ---- dome

    private static EmbeddedFluid embedded(String name) {
        return (EmbeddedFluid) Engines.embedded().pure(name);
    }

    @Test
    void aDomesStatesAreTheFluidsMixedByMass() {
        EmbeddedFluid fluid = embedded("nitrogen");
        double pc = fluid.criticalPressure();
        double end = Math.sqrt(Math.log(pc / (1.2 * fluid.triplePressure())));
        Dome dome = Dome.of(fluid, end, 120);
        near(dome.end(), end);
        double[] out = new double[16];
        for (double y = 0.4; y < end; y += 0.131) {
            double p = pc * Math.exp(-y * y);
            for (double x : new double[] {0, 0.1, 0.5, 1}) {
                FluidState exact = fluid.atPressureQuality(p, x);
                String what = p + " Pa " + x;
                dome.state(y, p, x, out, true);
                assertThat(out[TabulatedFluid.TEMPERATURE])
                        .as(what)
                        .isCloseTo(exact.temperature(), within(1e-6 * exact.temperature()));
                assertThat(out[TabulatedFluid.DENSITY] / exact.density())
                        .as(what)
                        .isCloseTo(1, within(1e-5));
                assertThat(out[TabulatedFluid.ENTROPY]).as(what).isCloseTo(exact.entropy(), within(0.02));
                assertThat(out[TabulatedFluid.CP]).isNaN();
                assertThat(out[TabulatedFluid.CV]).isNaN();
                FluidState wet = x == 0 || x == 1 ? fluid.atPressureQuality(p, x == 0 ? 1e-9 : 1 - 1e-9) : exact;
                assertThat(out[TabulatedFluid.SOUND] / wet.soundSpeed())
                        .as(what + " w")
                        .isCloseTo(1, within(2e-3));
                assertThat(dome.enthalpy(y, x)).as(what).isCloseTo(exact.enthalpy(), within(3.0));
                assertThat(dome.quality(y, exact.enthalpy(), false)).as(what).isCloseTo(x, within(2e-5));
                assertThat(dome.quality(y, exact.entropy(), true)).as(what).isCloseTo(x, within(2e-5));
                double viscosity = 1
                        / ((1 - x) / fluid.viscosity(fluid.atPressureQuality(p, 0))
                                + x / fluid.viscosity(fluid.atPressureQuality(p, 1)));
                assertThat(dome.viscosity(y, x) / viscosity).as(what + " mu").isCloseTo(1, within(1e-4));
                double[] two = new double[16];
                dome.state(y, p, x, two, false);
                assertThat(two[TabulatedFluid.DENSITY]).isEqualTo(out[TabulatedFluid.DENSITY]);
                assertThat(two[TabulatedFluid.SOUND]).isZero();
            }
            // held to the dome
            assertThat(dome.quality(y, dome.enthalpy(y, 0) - 1e4, false)).isZero();
            assertThat(dome.quality(y, dome.enthalpy(y, 1) + 1e4, false)).isEqualTo(1);
        }
        DoubleBuffer buffer = DoubleBuffer.allocate(dome.stored());
        dome.write(buffer);
        assertThat(buffer.hasRemaining()).isFalse();
        buffer.flip();
        Dome back = Dome.read(fluid, buffer);
        assertThat(back.enthalpy(1.1, 0.3)).isEqualTo(dome.enthalpy(1.1, 0.3));
        assertThat(back.end()).isEqualTo(dome.end());
        assertThat(back.size()).isEqualTo(dome.size()).isEqualTo(2 * 12 * 120);
        // at its last node and the first
        assertThat(dome.enthalpy(end, 1))
                .isCloseTo(fluid.atPressureQuality(pc * Math.exp(-end * end), 1).enthalpy(), within(1e-3));
        assertThat(dome.enthalpy(0, 1)).isCloseTo(dome.enthalpy(0, 0), within(1.0));
    }

    // ---- saturation

    @Test
    void theLinesSlopesAreDifferences() {
        for (String name : new String[] {"oxygen", "helium", "methane"}) {
            SaturationLine line = new SaturationLine(Coefficients.read(name + ".sat"));
            SaturationLine.Edge[] e = new SaturationLine.Edge[6];
            for (int i = 0; i < e.length; i++) {
                e[i] = new SaturationLine.Edge();
            }
            double tc = line.criticalTemperature();
            for (double t = 1.02 * line.tripleTemperature(); t < 0.995 * tc; t += 0.04 * tc) {
                double step = 1e-5 * t;
                for (boolean liquid : new boolean[] {true, false}) {
                    for (int k = 0; k < 3; k++) {
                        double at = t + (k - 1) * step;
                        if (liquid) {
                            line.liquid(at, e[k]);
                        } else {
                            line.vapour(at, e[k]);
                        }
                    }
                    String what = name + " at " + t;
                    difference(what, e[1].pressureByTemperature, e[2].pressure - e[0].pressure, step);
                    difference(what, e[1].densityByTemperature, e[2].density - e[0].density, step);
                    difference(what, e[1].enthalpyByTemperature, e[2].enthalpy - e[0].enthalpy, step);
                    difference(what, e[1].entropyByTemperature, e[2].entropy - e[0].entropy, step);
                    double x = line.x(t);
                    assertThat(e[1].pressure).isEqualTo(line.pressure(x));
                    assertThat(e[1].density).isEqualTo(liquid ? line.liquidDensity(x) : line.vapourDensity(x));
                    assertThat(e[1].enthalpy).isEqualTo(liquid ? line.liquidEnthalpy(x) : line.vapourEnthalpy(x));
                    assertThat(e[1].entropy).isEqualTo(liquid ? line.liquidEntropy(x) : line.vapourEntropy(x));
                    // T ds = dh - v dp along the line
                    assertThat(t * e[1].entropyByTemperature)
                            .as(what)
                            .isCloseTo(
                                    e[1].enthalpyByTemperature - e[1].pressureByTemperature / e[1].density,
                                    within(1e-4 * Math.abs(e[1].enthalpyByTemperature) + 1));
                }
                double x = line.x(t);
                line.phases(x, e[3], e[4]);
                assertThat(e[3].density).isEqualTo(line.liquidDensity(x));
                assertThat(e[4].density).isEqualTo(line.vapourDensity(x));
                assertThat(e[4].entropyByTemperature).isEqualTo(e[1].entropyByTemperature);
                for (boolean entropic : new boolean[] {true, false}) {
                    SaturationLine.Edge a = new SaturationLine.Edge();
                    SaturationLine.Edge b = new SaturationLine.Edge();
                    line.values(t, entropic, a, b);
                    assertThat(a.pressure).isEqualTo(line.pressure(x));
                    assertThat(b.pressure).isEqualTo(line.pressure(x));
                    assertThat(a.density).isEqualTo(line.liquidDensity(x));
                    assertThat(b.density).isEqualTo(line.vapourDensity(x));
                    assertThat(entropic ? a.entropy : a.enthalpy)
                            .isEqualTo(entropic ? line.liquidEntropy(x) : line.liquidEnthalpy(x));
                    assertThat(entropic ? b.entropy : b.enthalpy)
                            .isEqualTo(entropic ? line.vapourEntropy(x) : line.vapourEnthalpy(x));
                }
                assertThat(line.vapourDensityAt(t)).isEqualTo(line.vapourDensity(x));
                assertThat(line.xAtLiquidDensity(line.liquidDensity(x))).isCloseTo(x, within(1e-9));
                assertThat(line.xAtVapourDensity(line.vapourDensity(x))).isCloseTo(x, within(1e-9));
                assertThat(line.temperature(line.xAtPressure(line.pressure(x)))).isCloseTo(t, within(1e-10 * t));
            }
            assertThat(line.xAtLiquidDensity(0.9 * line.criticalDensity())).isZero();
            assertThat(line.xAtVapourDensity(1.1 * line.criticalDensity())).isZero();
            assertThat(line.x(tc * 1.01)).isZero();
            assertThat(line.x(line.tripleTemperature() * 0.5)).isEqualTo(line.x(line.tripleTemperature()));
            assertThat(line.xAtPressure(1e3 * line.criticalPressure())).isZero();
        }
    }

    private static void difference(String what, double slope, double change, double step) {
        double quotient = change / (2 * step);
        assertThat(slope).as(what).isCloseTo(quotient, within(2e-5 * Math.abs(quotient) + 1e-9));
    }

    @Test
    void theSolverFindsBothPhasesFromBadGuessesAndTheCriticalPointFromNearIt() {
        SplittableRandom random = new SplittableRandom(4);
        for (String name : new String[] {"nitrogen", "helium", "water"}) {
            Coefficients file = Coefficients.read(name + ".eos");
            HelmholtzEquation equation = new HelmholtzEquation(file);
            SaturationSolver solver = new SaturationSolver(file, equation);
            SaturationLine line = new SaturationLine(Coefficients.read(name + ".sat"));
            Workspace w = equation.workspace();
            for (double share : new double[] {0.1, 0.4, 0.7, 0.9, 0.97}) {
                double t = line.tripleTemperature() + share * (line.criticalTemperature() - line.tripleTemperature());
                double x = line.x(t);
                double spread = share > 0.9 ? 0.01 : 0.1;
                for (int n = 0; n < 4; n++) {
                    double liquid = line.liquidDensity(x) * (1 + spread * random.nextDouble());
                    double vapour = line.vapourDensity(x) * (1 - spread * random.nextDouble());
                    SaturationSolver.Pair pair = solver.solve(t, liquid, vapour);
                    equation.setTemperature(w, t);
                    equation.setDensity(w, pair.liquidDensity());
                    double stiff = equation.pressureSlope(w) * pair.liquidDensity();
                    double pl = equation.pressure(w);
                    double gl = equation.reducedGibbs(w);
                    equation.setDensity(w, pair.vapourDensity());
                    double pv = equation.pressure(w);
                    String what = name + " at " + t;
                    assertThat((pl - pv) / stiff).as(what).isCloseTo(0, within(1e-12));
                    assertThat(pair.pressure()).as(what).isCloseTo(pv, within(1e-10 * pv));
                    assertThat(gl).as(what).isCloseTo(equation.reducedGibbs(w), within(1e-11 * (1 + Math.abs(gl))));
                    assertThat(pair.temperature()).isEqualTo(t);
                    assertThat(pair.liquidDensity()).isGreaterThan(1.05 * pair.vapourDensity());
                }
                assertThat(solver.solve(t).pressure()).isCloseTo(line.pressure(x), within(1e-8 * line.pressure(x)));
                // the file's rough line is within some per cent
                assertThat(solver.guessPressure(t) / line.pressure(x)).isCloseTo(1, within(0.05));
            }
            double above = 1.05 * line.criticalTemperature();
            assertThatThrownBy(() -> solver.solve(above)).hasMessageContaining("NO_CONVERGENCE");
            if (equation.hasThirdDerivative()) {
                SaturationSolver.Critical critical =
                        solver.critical(1.003 * line.criticalTemperature(), 1.02 * line.criticalDensity());
                assertThat(critical.temperature())
                        .as(name)
                        .isCloseTo(line.criticalTemperature(), within(1e-9 * critical.temperature()));
                assertThat(critical.density()).isCloseTo(line.criticalDensity(), within(1e-6 * critical.density()));
                assertThat(critical.pressure()).isCloseTo(line.criticalPressure(), within(1e-8 * critical.pressure()));
            }
        }
    }

    // ---- logarithm, exponential, buffer, melting

    @Test
    void quickLogarithmAndExponentialAreThoseOfTheLibrary() {
        SplittableRandom random = new SplittableRandom(5);
        for (int i = 0; i < 20_000; i++) {
            double x = Math.exp(600 * (random.nextDouble() - 0.5));
            assertThat(QuickLog.of(x)).isCloseTo(Math.log(x), within(3e-15 + 7e-16 * Math.abs(Math.log(x))));
            double y = 1400 * (random.nextDouble() - 0.5);
            assertThat(QuickLog.exp(y) / Math.exp(y)).isCloseTo(1, within(1e-15));
            double one = 0.5 + random.nextDouble();
            assertThat(QuickLog.of(one)).isCloseTo(Math.log(one), within(3e-15));
        }
        assertThat(QuickLog.exp(0)).isEqualTo(1);
    }

    @Test
    void aBufferHoldsAStateAndGivesItBack() {
        PureFluid nitrogen = Engines.embedded().pure("nitrogen");
        FluidState[] states = {
            nitrogen.atPressureTemperature(1e6, 300),
            nitrogen.atTemperatureQuality(100, 0.3),
            nitrogen.atPressureTemperature(5e6, 90)
        };
        StateBuffer b = new StateBuffer();
        for (FluidState s : states) {
            b.set(s);
            assertThat(b.toState(s.fluid())).isEqualTo(s);
            assertThat(new double[] {
                        b.pressure(),
                        b.temperature(),
                        b.density(),
                        b.enthalpy(),
                        b.entropy(),
                        b.cp(),
                        b.cv(),
                        b.soundSpeed(),
                        b.quality()
                    })
                    .isEqualTo(new double[] {
                        s.pressure(),
                        s.temperature(),
                        s.density(),
                        s.enthalpy(),
                        s.entropy(),
                        s.cp(),
                        s.cv(),
                        s.soundSpeed(),
                        s.quality()
                    });
            assertThat(b.phase()).isEqualTo(s.phase());
            assertThat(b.extrapolated()).isEqualTo(s.extrapolated());
            assertThat(b.pressureByTemperature()).isNaN();
        }
        FluidState hot = nitrogen.atPressureTemperature(1e6, 1500);
        b.set(hot);
        assertThat(b.extrapolated()).isEqualTo(hot.extrapolated());
    }

    @Test
    void slopesInABufferAreThoseOfTheEquations() {
        Fluid nitrogen = Engines.embedded().pure("nitrogen");
        FluidState near = nitrogen.atPressureTemperature(2e6, 300);
        StateBuffer b = new StateBuffer();
        nitrogen.atPressureEnthalpy(2e6, near.enthalpy(), near, b);
        if (!Double.isNaN(b.pressureByTemperature())) {
            PureFluid pure = (PureFluid) nitrogen;
            double up = pure.atDensityTemperature(near.density(), 300.01).pressure();
            double down = pure.atDensityTemperature(near.density(), 299.99).pressure();
            assertThat(b.pressureByTemperature())
                    .isCloseTo((up - down) / 0.02, within(1e-6 * b.pressureByTemperature()));
        }
    }

    @Test
    void meltingLinesBeginAtTheTriplePointAndRise() {
        for (String name : new String[] {
            "nitrogen", "oxygen", "argon", "methane", "helium", "parahydrogen", "carbon-dioxide", "water"
        }) {
            EmbeddedFluid fluid = embedded(name);
            MeltingLine line = new MeltingLine(Coefficients.read(name + ".eos"));
            if (!line.known()) {
                assertThat(line.pressure(1.2 * fluid.tripleTemperature())).isInfinite();
                assertThat(line.maximumTemperature()).isZero();
                continue;
            }
            double t3 = fluid.tripleTemperature();
            double top = Math.min(line.maximumTemperature(), 3 * t3);
            assertThat(top).as(name).isGreaterThan(t3);
            double start = line.pressure(t3 * 1.0001);
            if (!name.equals("helium") && !name.equals("water")) {
                // within what a ten thousandth of the temperature makes: some hundred kPa
                assertThat(start).as(name).isBetween(0.5 * fluid.triplePressure(), fluid.triplePressure() + 1e6);
            }
            double last = start;
            for (double t = 1.01 * t3; t < top; t += 0.02 * t3) {
                double p = line.pressure(t);
                assertThat(p).as("%s at %s", name, t).isGreaterThan(last);
                last = p;
            }
            assertThat(line.pressure(line.maximumTemperature() * 1.001)).isInfinite();
        }
        // J. Phys. Chem. Ref. Data 29 (2000) 1361 for nitrogen: Simon's form, p0 = 12.523 kPa, a = 12798.61, c =
        // 1.78963 [from memory]
        double ratio = 80 / 63.151;
        double simon = 12.523e3 * (1 + 12798.61 * (Math.pow(ratio, 1.78963) - 1));
        MeltingLine nitrogen = new MeltingLine(Coefficients.read("nitrogen.eos"));
        assertThat(nitrogen.pressure(80)).isCloseTo(simon, within(1e-3 * simon));
    }
}

package purgewright.sealflow.passage;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.unit.Dimension;
import purgewright.fluids.unit.UnitException;
import purgewright.fluids.unit.Units;
import purgewright.sealflow.model.PassageSpec;

/**
 * Measured leakage: a table of flow at pressures in a test gas, scaled to the running fluid.
 *
 * <pre>{@code orifice law:  m / sqrt(p1 rho1)   is a function of p2/p1
 * laminar law:  m mu / (p1 rho1)    is a function of p2/p1}</pre>
 *
 * <p>Interpolated monotone and C1; zero at p2 = p1, held below the lowest measured p2/p1 (flagged). Between rest and the point measured
 * nearest to it at least the straight line through both. The test gas is taken perfect at its test temperature; its viscosity is
 * mu(293 K) (T/293)^0.7 [from memory, 2 %].
 *
 * <p>The leakage of one that is n times as open is n^3 of it by the laminar law (a film's), n^1.5 by the orifice law [invented: a throttle's
 * flow grows as its gap, that of a rough slot as gap^1.5, and both go with sqrt(p1 rho1); the larger is taken].
 */
final class MeasuredType implements PassageType {
    private static final List<String> GASES = List.of("air", "nitrogen", "helium", "argon", "oxygen", "hydrogen");
    private final boolean single;

    MeasuredType(boolean single) {
        this.single = single;
    }

    @Override
    public String key() {
        return single ? "static seal" : "measured";
    }

    @Override
    public String description() {
        return single
                ? "A lip or static seal by one leak test, scaled to the running gas as laminar leakage."
                : "A passage by its measured leakage, scaled from the test gas to the running fluid.";
    }

    @Override
    public List<PassageField> fields() {
        List<PassageField> fields = new ArrayList<>();
        if (single) {
            fields.add(PassageField.positive("test flow", Dimension.MASS_FLOW, "Leak in the test."));
            fields.add(PassageField.positive("test pressure", Dimension.PRESSURE, "Upstream pressure of the test."));
            fields.add(PassageField.optional(
                    "test back pressure",
                    Dimension.PRESSURE,
                    "101.325 kPa",
                    0,
                    1e9,
                    "Downstream pressure of the test."));
        } else {
            fields.add(new PassageField(
                    "table",
                    null,
                    true,
                    null,
                    0,
                    false,
                    0,
                    false,
                    List.of(),
                    "Rows 'upstream > downstream: flow' set apart by semicolons, as in '0.4 MPa > 0.1 MPa: 1.2 g/s; 0.2 MPa > 0.1 MPa: 0.5"
                            + " g/s'; or the name of a CSV file in the case's folder, whose columns name their unit and whose first lines name"
                            + " the test gas."));
            fields.add(PassageField.choice(
                    "law", "orifice", List.of("orifice", "laminar"), "How the flow scales with the fluid."));
        }
        fields.add(PassageField.choice("test gas", "air", GASES, "Gas of the test."));
        fields.add(PassageField.optional(
                "test temperature", Dimension.TEMPERATURE, "20 degC", 50, 2000, "Temperature of the test."));
        return List.copyOf(fields);
    }

    @Override
    public SealKind kind() {
        return SealKind.CLOSE;
    }

    private boolean laminar(PassageSpec spec) {
        return single || "laminar".equals(spec.word("law", "orifice"));
    }

    @Override
    public double growth(PassageSpec spec) {
        return laminar(spec) ? 3 : 1.5;
    }

    /** Molar mass kg/mol and viscosity at 293 K, Pa s. */
    private static double[] gas(String name) {
        switch (name) {
            case "nitrogen":
                return new double[] {0.0280134, 17.6e-6};
            case "helium":
                return new double[] {0.0040026, 19.6e-6};
            case "argon":
                return new double[] {0.039948, 22.3e-6};
            case "oxygen":
                return new double[] {0.0319988, 20.3e-6};
            case "hydrogen":
                return new double[] {0.00201588, 8.8e-6};
            default:
                return new double[] {0.0289647, 18.2e-6};
        }
    }

    @Override
    public String table() {
        return single ? null : "table";
    }

    @Override
    public String mend() {
        return single
                ? PassageType.super.mend()
                : "write each row like '0.4 MPa > 0.1 MPa: 1.2 g/s', rows parted by ';'";
    }

    @Override
    public Passage build(PassageSpec spec, Conditions conditions) {
        List<double[]> rows = new ArrayList<>();
        if (single) {
            rows.add(new double[] {
                Fields.positive(spec, "test pressure", "Pa"),
                spec.number("test back pressure", 101325),
                Fields.positive(spec, "test flow", "kg/s")
            });
        } else {
            for (String row : spec.word("table", "").split(";")) {
                if (!row.isBlank()) {
                    rows.add(parse(row));
                }
            }
        }
        boolean laminar = laminar(spec);
        double temperature = spec.number("test temperature", 293.15);
        double[] gas = gas(spec.word("test gas", "air"));
        double gasConstant = PerfectGas.MOLAR_GAS_CONSTANT / gas[0];
        double viscosity = gas[1] * Math.pow(temperature / 293, 0.7);
        String known = spec.word("test gas", "air");
        if (!GASES.contains(known)) {
            throw new IllegalArgumentException(
                    "measured: the test gas '" + known + "' is none of " + String.join(", ", GASES));
        }
        rows.sort(Comparator.comparingDouble(r -> r[1] / r[0]));
        if (rows.isEmpty()) {
            throw new IllegalArgumentException("measured: the table has no rows");
        }
        int size = rows.size() + (single ? 0 : 2);
        double[] ratio = new double[size];
        double[] function = new double[size];
        int at = single ? 0 : 1;
        for (double[] row : rows) {
            double b = row[1] / row[0];
            if (!(row[0] > 0 && row[1] >= 0 && b < 1 && row[2] > 0)) {
                throw new IllegalArgumentException(SimpleDucts.text(
                        "measured: a row needs upstream %g Pa above downstream %g Pa and a flow above 0 (%g kg/s)",
                        row[0], row[1], row[2]));
            }
            double density = row[0] / (gasConstant * temperature);
            ratio[at] = b;
            function[at] = laminar ? row[2] * viscosity / (row[0] * density) : row[2] * row[2] / (row[0] * density);
            at++;
        }
        if (!single) {
            ratio[0] = Math.min(0, ratio[1] - 0.1);
            function[0] = function[1];
            ratio[size - 1] = 1;
            for (int i = 1; i < size; i++) {
                if (!(function[i] <= function[i - 1]) || (i > 1 && !(ratio[i] > ratio[i - 1]))) {
                    throw new IllegalArgumentException(SimpleDucts.text(
                            "measured: reduced flow rises from p2/p1 %g to %g, or a row is doubled; no seal does that",
                            ratio[i - 1], ratio[i]));
                }
            }
        }
        double most = rows.stream().mapToDouble(r -> r[0]).max().orElse(Double.NaN);
        double least = rows.stream().mapToDouble(r -> r[0]).min().orElse(Double.NaN);
        return new Table(
                spec, ratio, function, laminar, single, least, most, Fields.band(conditions.bound(), 0.1, 0.1));
    }

    private static double[] parse(String row) {
        int arrow = row.indexOf('>');
        int colon = row.lastIndexOf(':');
        if (arrow < 0 || colon < arrow) {
            throw new IllegalArgumentException(
                    "measured: '" + row.trim() + "' is not of the form 'upstream > downstream: flow'");
        }
        try {
            return new double[] {
                Units.parse(row.substring(0, arrow).trim(), Dimension.PRESSURE),
                Units.parse(row.substring(arrow + 1, colon).trim(), Dimension.PRESSURE),
                Units.parse(row.substring(colon + 1).trim(), Dimension.MASS_FLOW)
            };
        } catch (UnitException bad) {
            throw new IllegalArgumentException("measured: '" + row.trim() + "': " + bad.getMessage(), bad);
        }
    }

    private static final class Table extends DirectedPassage {
        private final double[] ratio;
        private final double[] function;
        private final double[] slope;
        private final boolean laminar;
        private final boolean single;
        private final double least;
        private final double most;
        private final double band;

        Table(
                PassageSpec spec,
                double[] ratio,
                double[] function,
                boolean laminar,
                boolean single,
                double least,
                double most,
                double band) {
            super(spec);
            this.least = least;
            this.most = most;
            this.ratio = ratio;
            this.function = function;
            this.slope = Pchip.slopes(ratio, function, ratio.length);
            this.laminar = laminar;
            this.single = single;
            this.band = band;
            if (!single) {
                holdAboveLine();
            }
        }

        /**
         * Between rest and the point measured nearest to it the flow is at least the straight line through both: where readings curve
         * upwards, slopes of the interpolation alone would be zero at rest, which no leak is.
         *
         * <p>With t the share of the way from rest, a and r the slopes at its ends over that of the line, the cubic less t (laminar law) is
         * {@code t (1-t) ((a-1) (1-t) + (1-r) t)}, and less t^2 (orifice law, whose flow goes with its root)
         * {@code t (1-t) (a (1-t) + (2-r) t)}: neither is below 0 for the limits set here. The least a of the orifice law makes up for the
         * easing of its root, so that the flow starts with the line's slope. Slopes stay between 0 and 3 of the line's, so that the curve
         * stays monotone.
         */
        private void holdAboveLine() {
            int rest = ratio.length - 1;
            double way = 1 - ratio[rest - 1];
            double line = -function[rest - 1] / way;
            double start = laminar ? 1 : Math.min(1, Throttle.REST / way);
            slope[rest] = Math.min(slope[rest], start * line);
            slope[rest - 1] = Math.max(slope[rest - 1], (laminar ? 1 : 2) * line);
        }

        private double reduced(double b) {
            if (single) {
                return function[0] * (1 - b * b) / (1 - ratio[0] * ratio[0]);
            }
            return Math.max(0, Pchip.value(ratio, function, slope, Pchip.interval(ratio, ratio.length, b), b));
        }

        @Override
        PassageFlow oneWay(FluidState up, double down, boolean forward) {
            double p0 = up.pressure();
            double b = Math.max(0, down / p0);
            Notices notices = new Notices();
            if (!single) {
                notices.range("measured leakage", "pressure ratio", b, ratio[1], 1);
                notices.range("measured leakage", "upstream pressure", p0, 0.99 * least, 1.01 * most);
            }
            notices.notEstablished(
                    Throttle.dense(up) || up.phase() == Phase.TWO_PHASE,
                    "measured leakage",
                    "a gas test does not give liquid or two-phase flow");
            double f = reduced(b);
            double mass;
            if (laminar) {
                mass = f * p0 * up.density() / up.fluid().viscosity(up);
            } else {
                double rest = Throttle.REST / Math.max(1e-300, 1 - b);
                mass = Math.sqrt(f * p0 * up.density()) / Math.sqrt(Math.sqrt(1 + rest * rest));
            }
            boolean flat = !single && b <= ratio[1];
            return answer(up, forward, band * mass, 0, flat, down, Double.NaN, 0, NO_STAGES, notices);
        }

        @Override
        double slopeAtRest(FluidState up, boolean forward) {
            double p0 = up.pressure();
            double perRatio = single ? 2 * function[0] / (1 - ratio[0] * ratio[0]) : -slope[slope.length - 1];
            if (laminar) {
                return band * perRatio * up.density() / up.fluid().viscosity(up);
            }
            return band * Math.sqrt(perRatio * p0 * up.density() / Throttle.REST) / p0;
        }

        @Override
        double openArea() {
            return 0;
        }

        @Override
        public double diffusionLength() {
            return 1e-3;
        }

        @Override
        public double surfaceSpeed() {
            return 0;
        }

        @Override
        public double gap() {
            return 0;
        }
    }
}

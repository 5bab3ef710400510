package purgewright.sealflow.passage;

import java.util.Map;
import purgewright.fluids.Fluid;
import purgewright.fluids.FluidState;
import purgewright.fluids.Phase;
import purgewright.fluids.PropertyException;

/**
 * A liquid or two-phase fluid near one line of constant enthalpy, from some ten states: what the chambers of a labyrinth are asked for over
 * and over.
 *
 * <p>On the line all is polynomial: v, s, T, w^2 in p for the liquid, p v, s, T, w^2 and quality in ln p for the dome, through
 * Chebyshev-Lobatto points. Off the line, at given pressure, {@code h = h0 + T ds + T ds^2 / (2 cp)} and v, quality and (for the liquid) T
 * linear in h, with {@code dv/dh = -(dv0/dp + v^2/w^2)/v} from the line. In the dome of a pure fluid this is exact; a liquid's jet stays so
 * near the line (some kJ/kg) that it is good to 1e-4. Below the lowest point the line goes on straight in ln p.
 *
 * <p>Refused (null) for gases, for liquids lighter than 1.8 critical densities and where a polynomial's last term exceeds 1e-6.
 */
final class LineFluid implements Fluid {
    private static final double FIT = 1e-6;
    /** Least relative span of the liquid's points. */
    private static final double LEAST_SPAN = 1e-4;
    /** Cosines of the liquid's points, those of four first. */
    private static final double[] LIQUID_PLACE = {
        1, -1, 0.5, -0.5, Math.cos(Math.PI / 6), 0, -Math.cos(Math.PI / 6),
    };

    private static final int VOLUME = 0;
    private static final int ENTROPY = 1;
    private static final int TEMPERATURE = 2;
    private static final int SOUND = 3;
    private static final int QUALITY = 4;

    private final FluidState up;
    private final double enthalpy;
    /** Pressure of the first two-phase state on the line; 0 where there is none. */
    private double edge;

    private boolean liquid;
    private double[] liquidNode;
    private double[][] liquidTerm;
    private double heatCapacity;
    private double shiftHigh;
    private double shiftLow;
    private double[] domeNode;
    private double[][] domeTerm;
    private double lowest;
    /** dq/dh by a parabola in ln(p / edge). */
    private final double[] qualitySlope = new double[3];

    private double middle;

    private LineFluid(FluidState up) {
        this.up = up;
        this.enthalpy = up.enthalpy();
    }

    /** The line from {@code up} to a pressure; null where it is not to be had this way. */
    static LineFluid of(FluidState up, double down) {
        boolean wet = up.phase() == Phase.TWO_PHASE;
        if (!wet && !(up.density() > 1.8 * up.fluid().criticalDensity())) {
            return null;
        }
        try {
            LineFluid line = new LineFluid(up);
            return line.build(wet, down) ? line : null;
        } catch (PropertyException e) {
            return null;
        }
    }

    private boolean build(boolean wet, double down) {
        if (wet) {
            edge = up.pressure();
            return dome(up, Math.max(0.6 * down, 0.04 * edge));
        }
        liquid = true;
        FluidState low = up.fluid().atPressureEnthalpy(down, enthalpy, up);
        if (low.phase() != Phase.TWO_PHASE) {
            if (!(low.density() > 1.8 * up.fluid().criticalDensity())) {
                return false;
            }
            return liquid(low);
        }
        FluidState before = DomeEdge.find(up, low, p -> up.fluid().atPressureEnthalpy(p, enthalpy, up));
        edge = before.pressure();
        FluidState after = up.fluid().atPressureEnthalpy(edge * (1 - 1e-6), enthalpy, up);
        return after.phase() == Phase.TWO_PHASE
                && before.density() > 1.8 * up.fluid().criticalDensity()
                && liquid(before)
                && dome(after, Math.max(0.6 * down, 0.04 * edge));
    }

    private boolean liquid(FluidState low) {
        double p1 = low.pressure();
        // Differences of states nearer than that are noise: then the points begin above the upstream pressure.
        double p0 = Math.max(up.pressure(), (1 + LEAST_SPAN) * p1);
        double half = 0.5 * (p0 - p1);
        int most = LIQUID_PLACE.length;
        double[] node = new double[most];
        double[][] term = new double[4][most];
        for (int j = 0; j < most; j++) {
            node[j] = j == 0 ? p0 : j == 1 ? p1 : p1 + half * (1 + LIQUID_PLACE[j]);
            FluidState at =
                    node[j] == up.pressure() ? up : j == 1 ? low : up.fluid().atPressureEnthalpy(node[j], enthalpy, up);
            if (at.phase() == Phase.TWO_PHASE) {
                return false;
            }
            term[VOLUME][j] = 1 / at.density();
            term[ENTROPY][j] = at.entropy();
            term[TEMPERATURE][j] = at.temperature();
            term[SOUND][j] = at.soundSpeed() * at.soundSpeed();
            for (double[] each : term) {
                difference(node, each, j);
            }
            double size = 2 * Math.pow(0.5 * half, j);
            boolean enough = Math.abs(term[VOLUME][j]) * size < FIT * term[VOLUME][0]
                    && Math.abs(term[SOUND][j]) * size < 1e-2 * term[SOUND][0];
            if ((j == 3 || j == most - 1) && (enough || half < 1e-6 * p0)) {
                liquidNode = cut(node, j + 1);
                liquidTerm = new double[4][];
                for (int k = 0; k < 4; k++) {
                    liquidTerm[k] = cut(term[k], j + 1);
                }
                heatCapacity = up.cp();
                shiftHigh = liquidShift(p0);
                shiftLow = half > 1e-3 * p0 ? liquidShift(p1) : shiftHigh;
                return heatCapacity > 0;
            }
        }
        return false;
    }

    /** dv/dh at constant pressure. */
    private double liquidShift(double p) {
        double v = newton(liquidNode, liquidTerm[VOLUME], p);
        double dv = slope(liquidNode, liquidTerm[VOLUME], p);
        return -(dv / v + v / newton(liquidNode, liquidTerm[SOUND], p));
    }

    private boolean dome(FluidState first, double low) {
        lowest = Math.min(low, 0.98 * edge);
        double end = Math.log(lowest / edge);
        int most = SlotPath.PLACE.length;
        double[] node = new double[most];
        double[][] term = new double[5][most];
        double least = Double.POSITIVE_INFINITY;
        for (int j = 0; j < most; j++) {
            node[j] = j == 0 ? 0 : j == 1 ? end : 0.5 * end * (1 - SlotPath.PLACE[j]);
            double p = edge * Math.exp(node[j]);
            FluidState at = j == 0 ? first : up.fluid().atPressureEnthalpy(p, enthalpy, up);
            if (at.phase() != Phase.TWO_PHASE) {
                return false;
            }
            least = Math.min(least, p / at.density());
            term[VOLUME][j] = p / at.density();
            term[ENTROPY][j] = at.entropy();
            term[TEMPERATURE][j] = at.temperature();
            term[SOUND][j] = at.soundSpeed() * at.soundSpeed();
            term[QUALITY][j] = at.quality();
            if (j < 3) {
                double step = -500;
                FluidState colder = up.fluid().atPressureEnthalpy(p, enthalpy + step);
                if (colder.phase() != Phase.TWO_PHASE) {
                    step = 500;
                    colder = up.fluid().atPressureEnthalpy(p, enthalpy + step);
                }
                qualitySlope[j] = (colder.quality() - at.quality()) / step;
            }
            for (double[] each : term) {
                difference(node, each, j);
            }
            boolean enough = 2 * Math.abs(term[VOLUME][j]) * Math.pow(-0.25 * end, j) < FIT * least;
            if ((j == 4 || j == 8 || j == 16) && enough) {
                domeNode = cut(node, j + 1);
                domeTerm = new double[5][];
                for (int k = 0; k < 5; k++) {
                    domeTerm[k] = cut(term[k], j + 1);
                }
                middle = 0.5 * end;
                double first1 = (qualitySlope[2] - qualitySlope[0]) / middle;
                double whole = (qualitySlope[1] - qualitySlope[0]) / end;
                qualitySlope[1] = first1;
                qualitySlope[2] = (whole - first1) / (end - middle);
                return true;
            }
        }
        return false;
    }

    private static double[] cut(double[] array, int size) {
        return java.util.Arrays.copyOf(array, size);
    }

    /** Turns the value at point j into Newton's divided difference. */
    private static void difference(double[] node, double[] term, int j) {
        double d = term[j];
        for (int k = 0; k < j; k++) {
            d = (d - term[k]) / (node[j] - node[k]);
        }
        term[j] = d;
    }

    private static double newton(double[] node, double[] term, double at) {
        double y = term[term.length - 1];
        for (int k = term.length - 2; k >= 0; k--) {
            y = y * (at - node[k]) + term[k];
        }
        return y;
    }

    private static double slope(double[] node, double[] term, double at) {
        double y = term[term.length - 1];
        double dy = 0;
        for (int k = term.length - 2; k >= 0; k--) {
            double d = at - node[k];
            dy = dy * d + y;
            y = y * d + term[k];
        }
        return dy;
    }

    /** The state the line starts from, of this fluid. */
    FluidState start() {
        return atPressureEnthalpy(up.pressure(), enthalpy);
    }

    @Override
    public FluidState atPressureEnthalpy(double pressure, double h) {
        return state(pressure, h - enthalpy, Double.NaN);
    }

    @Override
    public FluidState atPressureEntropy(double pressure, double entropy) {
        return state(pressure, Double.NaN, entropy);
    }

    /** Of the liquid's and the dome's state that with the larger volume. */
    private FluidState state(double p, double dh, double entropy) {
        double v = 0;
        double s = 0;
        double temperature = 0;
        double shift = 0;
        double w2 = 0;
        if (liquid) {
            double on = liquid(VOLUME, p);
            s = liquid(ENTROPY, p);
            temperature = liquid(TEMPERATURE, p);
            w2 = liquid(SOUND, p);
            double ds = entropy - s;
            shift = Double.isNaN(dh) ? temperature * ds * (1 + 0.5 * ds / heatCapacity) : dh;
            double t = (p - liquidNode[1]) / (liquidNode[0] - liquidNode[1]);
            v = on + (shiftLow + (shiftHigh - shiftLow) * t) * shift;
        }
        if (p < edge || !liquid) {
            double y = Math.log(Math.max(p, lowest) / edge);
            double beyond = p < lowest ? Math.log(p / lowest) : 0;
            double pv = dome(VOLUME, y, beyond);
            double sLine = dome(ENTROPY, y, beyond);
            double tLine = dome(TEMPERATURE, y, beyond);
            double sound = Math.max(1, dome(SOUND, y, 0));
            double dpv = slope(domeNode, domeTerm[VOLUME], y);
            double volume = pv / p;
            double byEnthalpy = -((dpv - pv) / (p * p * volume) + volume / sound);
            double shiftWet = Double.isNaN(dh) ? tLine * (entropy - sLine) : dh;
            double wetVolume = volume + byEnthalpy * shiftWet;
            if (!liquid || wetVolume > v) {
                double slope = qualitySlope[0] + y * (qualitySlope[1] + (y - middle) * qualitySlope[2]);
                double quality = Math.max(0, Math.min(1, dome(QUALITY, y, beyond) + slope * shiftWet));
                return new FluidState(
                        this,
                        p,
                        tLine,
                        1 / wetVolume,
                        enthalpy + shiftWet,
                        Double.isNaN(dh) ? entropy : sLine + dh / tLine,
                        Double.NaN,
                        Double.NaN,
                        Math.sqrt(sound),
                        quality,
                        Phase.TWO_PHASE,
                        false);
            }
        }
        return new FluidState(
                this,
                p,
                temperature + shift / heatCapacity,
                1 / v,
                enthalpy + shift,
                Double.isNaN(dh) ? entropy : s + dh / temperature,
                heatCapacity,
                up.cv(),
                Math.sqrt(Math.max(1, w2)),
                0,
                up.phase(),
                false);
    }

    /** On the liquid's line; below its lowest point straight on, for polynomials through points far off say nothing. */
    private double liquid(int what, double p) {
        double held = Math.max(p, liquidNode[1]);
        double at = newton(liquidNode, liquidTerm[what], held);
        return p < held ? at + (p - held) * slope(liquidNode, liquidTerm[what], held) : at;
    }

    private double dome(int what, double y, double beyond) {
        double at = newton(domeNode, domeTerm[what], y);
        return beyond == 0 ? at : at + beyond * slope(domeNode, domeTerm[what], y);
    }

    @Override
    public String name() {
        return up.fluid().name();
    }

    @Override
    public double molarMass() {
        return up.fluid().molarMass();
    }

    @Override
    public Map<String, Double> moleFractions() {
        return up.fluid().moleFractions();
    }

    /** Not on the line: asked of the fluid itself. */
    @Override
    public FluidState atPressureTemperature(double pressure, double temperature) {
        return up.fluid().atPressureTemperature(pressure, temperature);
    }

    @Override
    public double viscosity(FluidState state) {
        return up.fluid().viscosity(state);
    }

    @Override
    public double conductivity(FluidState state) {
        return up.fluid().conductivity(state);
    }

    @Override
    public double idealGasHeatCapacityRatio(double temperature) {
        return up.fluid().idealGasHeatCapacityRatio(temperature);
    }

    @Override
    public double criticalDensity() {
        return up.fluid().criticalDensity();
    }
}

package purgewright.fluids.phase;

import java.nio.DoubleBuffer;
import purgewright.fluids.FluidState;

/**
 * Splines of both phases along the saturation line over {@code y = sqrt(ln(pc/p))}, in which both sides are one smooth curve through the
 * critical point; states inside the dome are mixed from them. Immutable.
 */
final class Dome {
    private static final int T = 0;
    private static final int LIQUID_ENTHALPY = 1;
    private static final int VAPOUR_ENTHALPY = 2;
    private static final int LIQUID_DENSITY = 3;
    /** Compressibility factor p/(rho R T) of the vapour. */
    private static final int VAPOUR_FACTOR = 4;

    private static final int LIQUID_ENTROPY = 5;
    private static final int VAPOUR_ENTROPY = 6;
    /** dp/dT over p. */
    private static final int SLOPE = 7;
    /** A phase's entropy slope at constant volume. */
    private static final int LIQUID_HEAT = 8;

    private static final int VAPOUR_HEAT = 9;
    private static final int LIQUID_VISCOSITY = 10;
    private static final int VAPOUR_VISCOSITY = 11;
    private static final int FIELDS = 12;

    private final double gasConstant;
    private final double perStep;
    private final double step;
    private final int count;
    /** Node i, field k: value and slope at 2 (i FIELDS + k). */
    private final double[] data;

    private Dome(double gasConstant, double step, int count, double[] data) {
        this.gasConstant = gasConstant;
        this.step = step;
        this.count = count;
        this.data = data;
        perStep = 1 / step;
    }

    static Dome of(EmbeddedFluid fluid, double end, int count) {
        double step = end / (count - 1);
        double pc = fluid.criticalPressure();
        double r = fluid.equation().gasConstant();
        double[][] columns = new double[FIELDS][count];
        for (int i = 0; i < count; i++) {
            double y = i * step;
            double p = Math.max(pc * Math.exp(-y * y), fluid.triplePressure());
            FluidState liquid = fluid.atPressureQuality(p, 0);
            FluidState vapour = fluid.atPressureQuality(p, 1);
            double t = liquid.temperature();
            columns[T][i] = t;
            columns[LIQUID_ENTHALPY][i] = liquid.enthalpy();
            columns[VAPOUR_ENTHALPY][i] = vapour.enthalpy();
            columns[LIQUID_DENSITY][i] = liquid.density();
            columns[VAPOUR_FACTOR][i] = p / (vapour.density() * r * t);
            columns[LIQUID_ENTROPY][i] = liquid.entropy();
            columns[VAPOUR_ENTROPY][i] = vapour.entropy();
            columns[LIQUID_VISCOSITY][i] = fluid.viscosity(liquid);
            columns[VAPOUR_VISCOSITY][i] = fluid.viscosity(vapour);
            double[] slopes = fluid.saturationSlopes(p);
            // the slope over p is of order ten at any pressure; the heats are finite but at the critical point
            columns[SLOPE][i] = slopes[0] / p;
            columns[LIQUID_HEAT][i] = slopes[1];
            columns[VAPOUR_HEAT][i] = slopes[2];
        }
        // the heats diverge at the critical point, and slope and heats are lost to rounding there: hold the first node
        for (int k : new int[] {SLOPE, LIQUID_HEAT, VAPOUR_HEAT}) {
            columns[k][0] = columns[k][1];
        }
        double[] data = new double[2 * FIELDS * count];
        for (int k = 0; k < FIELDS; k++) {
            double[] c = Splines.coefficients(columns[k]);
            for (int i = 0; i < count; i++) {
                data[2 * (i * FIELDS + k)] = columns[k][i];
                data[2 * (i * FIELDS + k) + 1] = (c[i + 2] - c[i]) / 2;
            }
        }
        return new Dome(r, step, count, data);
    }

    /** Temperature, density, entropy, cp and cv (NaN) and speed of sound into an array, or the first two only. */
    void state(double y, double pressure, double quality, double[] out, boolean all) {
        double place = y * perStep;
        int i = Math.min((int) place, count - 2);
        double s = place - i;
        double temperature = at(T, i, s);
        double liquid = 1 / at(LIQUID_DENSITY, i, s);
        double vapour = at(VAPOUR_FACTOR, i, s) * gasConstant * temperature / pressure;
        double volume = liquid + quality * (vapour - liquid);
        out[TabulatedFluid.TEMPERATURE] = temperature;
        out[TabulatedFluid.DENSITY] = 1 / volume;
        if (all) {
            out[TabulatedFluid.ENTROPY] = mixed(LIQUID_ENTROPY, VAPOUR_ENTROPY, i, s, quality);
            out[TabulatedFluid.CP] = Double.NaN;
            out[TabulatedFluid.CV] = Double.NaN;
            double heat = mixed(LIQUID_HEAT, VAPOUR_HEAT, i, s, quality);
            out[TabulatedFluid.SOUND] = volume * at(SLOPE, i, s) * pressure / Math.sqrt(heat);
        }
    }

    /** Vapour's share of the mass at an enthalpy, or an entropy; held to [0, 1], since the regions' splines drew the line. */
    double quality(double y, double value, boolean entropy) {
        double place = y * perStep;
        int i = Math.min((int) place, count - 2);
        double s = place - i;
        double liquid = at(entropy ? LIQUID_ENTROPY : LIQUID_ENTHALPY, i, s);
        double vapour = at(entropy ? VAPOUR_ENTROPY : VAPOUR_ENTHALPY, i, s);
        return Math.min(Math.max((value - liquid) / (vapour - liquid), 0), 1);
    }

    double enthalpy(double y, double quality) {
        double place = y * perStep;
        int i = Math.min((int) place, count - 2);
        return mixed(LIQUID_ENTHALPY, VAPOUR_ENTHALPY, i, place - i, quality);
    }

    /** Viscosity of the mixture by mass, 1/mu = (1 - x)/mu' + x/mu''. */
    double viscosity(double y, double quality) {
        double place = y * perStep;
        int i = Math.min((int) place, count - 2);
        double s = place - i;
        return 1 / ((1 - quality) / at(LIQUID_VISCOSITY, i, s) + quality / at(VAPOUR_VISCOSITY, i, s));
    }

    private double mixed(int liquid, int vapour, int i, double s, double quality) {
        double first = at(liquid, i, s);
        return first + quality * (at(vapour, i, s) - first);
    }

    private double at(int field, int i, double s) {
        int p = 2 * (i * FIELDS + field);
        int q = p + 2 * FIELDS;
        double y0 = data[p];
        double m0 = data[p + 1];
        double m1 = data[q + 1];
        double d = data[q] - y0;
        return y0 + s * (m0 + s * (3 * d - 2 * m0 - m1 + s * (m0 + m1 - 2 * d)));
    }

    /** Largest y. */
    double end() {
        return step * (count - 1);
    }

    int size() {
        return data.length;
    }

    /** Numbers that {@link #write} needs. */
    int stored() {
        return 2 + data.length;
    }

    void write(DoubleBuffer out) {
        out.put(step).put(count).put(data);
    }

    static Dome read(EmbeddedFluid fluid, DoubleBuffer in) {
        double step = in.get();
        int count = TableStore.count(in, 2 * FIELDS);
        double[] data = new double[2 * FIELDS * count];
        in.get(data);
        return new Dome(fluid.equation().gasConstant(), step, count, data);
    }
}
